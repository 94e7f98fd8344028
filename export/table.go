package export

// Table is a list to print: a title, columns, rows, and notes below.
type Table struct {
	ID      string // lower-case ASCII, used in file names and JSON: "cut-list"
	Title   string
	Columns []Column
	Rows    [][]Cell
	Notes   []string
}

// Column is a column's heading.
type Column struct {
	Key   string // lower-case ASCII for CSV and JSON, with its unit: "length_mm"
	Head  string // for people: "length"
	Unit  string // for people: "mm", "in", "g"; may be empty
	Right bool   // numbers stand to the right
}

// Cell is one entry: Text for people, and where IsNum the number behind it for programs.
type Cell struct {
	Text  string
	Num   float64
	IsNum bool
}

// Str returns a cell of text.
func Str(s string) Cell { return Cell{Text: s} }

// Num returns a cell with a number and its text for people.
func Num(v float64, text string) Cell { return Cell{Text: text, Num: v, IsNum: true} }
