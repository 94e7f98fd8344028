package ribfile

import (
	"slices"
	"strings"

	"ribwright/geom/finding"
)

// notePlaces keeps the place of every value and table for Locate.
func (r *reader) notePlaces(v *value) {
	if v.key != "" {
		r.doc.places[v.key] = r.src.place(v.at)
	}
	for _, name := range v.names {
		r.notePlaces(v.fields[name])
	}
	for _, item := range v.items {
		r.notePlaces(item)
	}
}

// Locate returns the findings with file, line and column filled in where they have a key and no place
// yet: the place of the key's value, or, where the file leaves it at its default, of its table, or else
// the first line. Of a value left at its default the remedy says so.
func (d *Doc) Locate(fs []finding.Finding) []finding.Finding {
	out := slices.Clone(fs)
	for i := range out {
		f := &out[i]
		if f.Key == "" || f.Line != 0 {
			continue
		}
		p, found := d.places[f.Key]
		table, name := parentKey(f.Key)
		if !found && slices.Contains(schema[schemaTable(table)], name) {
			f.Fix = strings.TrimSpace(f.Fix + " The file leaves " + name + " at its default; it is written under " + header(schemaTable(table)) + ".")
		}
		for key := table; !found && key != ""; key, _ = parentKey(key) {
			p, found = d.places[key]
		}
		if !found {
			p = place{1, 1}
		}
		f.File, f.Line, f.Column = d.File, p.line, p.column
	}
	return out
}

// parentKey splits "spar[1].width" into "spar[1]" and "width", and "spar[1]" into "spar" and "[1]".
func parentKey(key string) (parent, name string) {
	if strings.HasSuffix(key, "]") {
		if i := strings.LastIndexByte(key, '['); i >= 0 {
			return key[:i], key[i:]
		}
	}
	i := strings.LastIndexByte(key, '.')
	return key[:max(i, 0)], key[i+1:]
}
