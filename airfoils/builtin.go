package airfoils

import (
	"embed"
	"strings"

	"ribwright/geom/finding"
)

// tables holds one text file for each section that is built in, named as the rib file names it. A section
// is added by adding its file, with a title and a line "# Source: …".
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
	return s, found
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
	return names
}
