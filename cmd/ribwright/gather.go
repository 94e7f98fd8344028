package main

import (
	"fmt"
	"strings"

	"ribwright/geom/finding"
	"ribwright/geom/wing"
)

// gather tells of several kinds of rib what is alike with them once, with the kinds' names.
func gather(kinds []wing.Kind, found [][]finding.Finding) []finding.Finding {
	if len(kinds) == 1 {
		return found[0]
	}
	type about struct {
		severity         finding.Severity
		code, key, file  string
		line, column, nr int // nr: how many of its like there were with the same rib
	}
	var out []finding.Finding
	place, ribs := map[about]int{}, map[about][]string{}
	for i, k := range kinds {
		seen := map[about]int{}
		for _, f := range found[i] {
			a := about{f.Severity, f.Code, f.Key, f.File, f.Line, f.Column, 0}
			a.nr, seen[a] = seen[a], seen[a]+1
			if _, told := place[a]; !told {
				place[a] = len(out)
				f.Part = strings.TrimSpace(k.Name + " " + f.Part)
				out = append(out, f)
			}
			ribs[a] = append(ribs[a], k.Name)
		}
	}
	for a, i := range place { // each its own entry: the order does not matter
		names := ribs[a]
		out[i].Message = "Rib " + names[0] + ": " + out[i].Message
		switch len(names) {
		case 1:
		case len(kinds):
			out[i].Message += " It is the same, or nearly so, with all ribs."
		default:
			out[i].Message += fmt.Sprintf(" It is the same, or nearly so, with %d kinds of rib: %s.", len(names), few(names))
		}
	}
	return out
}

// few lists names, the first ones of many.
func few(names []string) string {
	const most = 12
	if len(names) > most {
		return fmt.Sprintf("%s and %d more", strings.Join(names[:most], ", "), len(names)-most)
	}
	return strings.Join(names, ", ")
}
