package airfoils

import (
	"embed"
	"regexp"
	"slices"
	"strings"

	"ribwright/geom/finding"
)

// tables holds one text file for each section that is built in, named as the rib file names it. A section
// is added by adding its file, with a title and the lines "# Source: …" and "# Datum: …".
//
// Only tables whose digits were checked against a second copy, or put back on the datum on which every
// ordinate is a printed one, stand here. Left out for want of that: GOE 398 (its lower ordinate at 40 %, 0.11,
// is no multiple of 0.05 as all others are), Clark YH (circulated to half a percent in places, and without
// station 1.25), and NACA 23012, whose equation is better than the copy of its table.
//
//go:embed tables/*.txt
var tables embed.FS

// Builtin returns a section that the program brings along, such as "clark-y", in the datum of its source.
func Builtin(name string) (Section, []finding.Finding) {
	key := strings.ToLower(strings.Join(strings.Fields(name), "-"))
	data, err := tables.ReadFile("tables/" + key + ".txt")
	if err != nil {
		return Section{}, []finding.Finding{{Code: "section-builtin", Key: "section.builtin",
			Message: "There is no section “" + strings.TrimSpace(name) + "” built in.",
			Fix:     "There are: " + strings.Join(BuiltinNames(), ", ") + ". For another give its table: file = \"section.dat\", or ordinates = [[0, 0, 0], …]."}}
	}
	s, found := Read(key+".txt", data)
	for i := range found { // remarks on a table in the program have no place in a builder's files
		found[i].Key, found[i].File, found[i].Line, found[i].Column = "section.builtin", "", 0, 0
	}
	if m := datumLine.FindSubmatch(data); m != nil {
		s.Datum = string(m[1])
	}
	return s, found
}

var datumLine = regexp.MustCompile(`(?m)^# Datum: (.+?)\r?$`)

// Info describes a section that is built in. Sizes are shares of the chord.
type Info struct {
	Name                   string // as the rib file names it: "clark-y"
	Title                  string // "Clark Y"
	Source, Datum          string
	Thickness, ThicknessAt float64
	Camber, CamberAt       float64
	FlatShare              float64 // how much of the lower side runs straight
}

// Builtins describes the sections that are built in, in order of their names.
func Builtins() []Info {
	var out []Info
	for _, name := range BuiltinNames() {
		s, _ := Builtin(name)
		i := Info{Name: name, Title: s.Name, Source: s.Source, Datum: s.Datum, FlatShare: s.FlatShare()}
		i.Thickness, i.ThicknessAt = s.MaxThickness()
		i.Camber, i.CamberAt = s.MaxCamber()
		out = append(out, i)
	}
	return out
}

// BuiltinNames returns the names of the sections that are built in, in order of the alphabet.
func BuiltinNames() []string {
	entries, err := tables.ReadDir("tables")
	if err != nil {
		panic("airfoils: embedded tables: " + err.Error())
	}
	var names []string
	for _, e := range entries {
		names = append(names, strings.TrimSuffix(e.Name(), ".txt"))
	}
	slices.Sort(names)
	return names
}
