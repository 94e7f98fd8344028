package ribfile

import (
	"fmt"
	"slices"
	"strings"

	"ribwright/geom/finding"
)

// reader goes through the tree of values, fills the Doc and gathers findings.
type reader struct {
	src  *source
	root *value
	doc  *Doc
	fs   []finding.Finding

	unitsKnown bool   // the file gives them, and they are some that there are
	bareLength *value // the first bare quantity met while they are not known

	chord      float64 // rib.chord; a stand-in where it is not known, so that shares can be compared
	chordKnown bool
	aft        float64 // where the rib ends

	spars []sparPlace
	ends  [2]station // of the nose and the tail block
}

// Read reads a rib file. Every mistake in it is a finding with its place and remedy, in the order of the
// file; the Doc is as complete as the file allows, and never nil. file is the name for messages.
func Read(file string, data []byte) (*Doc, []finding.Finding) {
	src, fs := newSource(file, data)
	g := grow(src)
	r := &reader{src: src, root: g.root, doc: &Doc{File: file}}
	unread := len(src.data) == 0 && len(fs) > 0
	r.document()
	r.doc.places = map[string]place{}
	r.notePlaces(g.root)
	fs = append(fs, g.fs...)
	switch {
	case unread:
	case g.halted: // what is missing may only be unread: say nothing of the rest
	case len(g.fs) == 0:
		fs = append(fs, r.found()...)
		for _, bad := range verify(src) {
			told := slices.ContainsFunc(fs, func(f finding.Finding) bool { return f.Line == bad.Line && f.Column == bad.Column })
			if !told {
				fs = append(fs, bad)
			}
		}
	default:
		fs = append(fs, r.found()...)
	}
	r.keepWriting(fs)
	return r.doc, finding.Sort(fs)
}

// found returns the reader's findings. Where bare lengths stand without units, or with some that there are not, sizes
// mean nothing yet, and only the units are told, beside what does not depend on sizes.
func (r *reader) found() []finding.Finding {
	if r.unitsKnown || r.bareLength == nil {
		return r.fs
	}
	fs := slices.DeleteFunc(r.fs, func(f finding.Finding) bool {
		return slices.Contains([]string{"mm", unitMass, unitTemperature, unitRate, unitStress}, f.Unit) || slices.Contains([]string{CodeSparOverlap, CodeSparOrder, CodeBlockOverlap, CodeBayBackwards,
			CodeBayOverlap, CodeBayAcrossSpar, CodeStationInSpar, CodeSkinBackwards}, f.Code)
	})
	r.fs = fs
	if (tab{r, r.root, ""}).has("units") {
		return r.fs // told where they were read
	}
	r.tell(CodeUnitsMissing, "units", r.bareLength.at, say(r.bareLength.key)+" has no unit, and the file does not say what bare numbers are.",
		`Write units = "in" or units = "mm" at the top of the file, above the first header.`)
	return r.fs
}

// inUnits turns a bare number of the file into millimetres. Zero needs no unit.
func (r *reader) inUnits(v *value, n float64) float64 {
	r.noteBare(v, n != 0)
	if r.doc.Units == Inch {
		return inchesMM(n)
	}
	return n
}

// noteBare keeps the first bare number that means nothing without the file's units.
func (r *reader) noteBare(v *value, needs bool) {
	if !r.unitsKnown && r.bareLength == nil && needs {
		r.bareLength = v
	}
}

func (r *reader) document() {
	top := tab{r, r.root, ""}
	r.unknownKeys(r.root, "")
	d := r.doc
	d.Title, _ = top.text("title", defaultTitle, `title = "Wing rib"`)
	d.Units = Units(top.choice("units", string(MM), string(Inch), string(MM)))
	units := top.get("units")
	r.unitsKnown = units != nil && units.raw == string(d.Units)
	r.date(top)
	r.drawing(r.table("drawing")) // first: it says how the lengths in messages are written
	rib := r.table("rib")
	r.rib(rib)
	r.section(r.table("section"))
	r.strips(r.table("cap"), r.table("stick"))
	r.readSpars(r.tableList("spar", "spar", r.root))
	r.cutOff(rib)
	r.blocks(r.table("nose"), r.table("tail"))
	r.bays(r.tableList("bay", "bay", r.root))
	r.linesOf(r.tableList("line", "line", r.root))
	r.gussets(r.table("gusset"))
	r.web(r.table("web"))
	r.fastener(r.table("fastener"))
	r.varnish(r.table("varnish"))
	r.mass(r.table("mass"))
	r.adhesive(r.table("adhesive"))
	r.batch(r.table("batch"))
	r.session(r.table("session"))
	r.scale(r.table("scale"))
	r.coupon(r.table("coupon"))
	r.jig(r.table("jig"))
	r.bend(r.table("bend"))
	r.paper(r.table("paper"))
	r.layers(r.table("layers"))
	r.saw(r.table("saw"))
	r.sheet(r.table("sheet"))
	r.stock(r.table("stock"))
	r.wing(r.table("wing"))
}

func (r *reader) date(top tab) {
	v := top.get("date")
	if v != nil && v.kind == dateKind && len(v.raw) == len("2026-11-25") && v.raw[4] == '-' {
		r.doc.Date = v.raw
		return
	}
	r.doc.Date, _ = top.text("date", "", `date = "2026-11-25"`)
}

// table returns a table of the file's top. A list of one table is taken for it, with a finding.
func (r *reader) table(name string) tab {
	v := (tab{r, r.root, ""}).get(name)
	t := tab{r, v, name}
	if v == nil {
		return t
	}
	switch {
	case v.kind == listKind && !v.declared && len(v.items) > 0:
		r.tell(CodeTypeWrong, v.key, v.at, "There is one "+header(name)+" in a file, not several.", "Write "+header(name)+" with single brackets, once.")
		t.v = v.items[0]
	case v.kind != tableKind:
		t.wrongType(v, "a table", header(name)+" on a line of its own, with its keys below")
		t.v = nil
		return t
	}
	r.unknownKeys(t.v, name)
	return t
}

// tableList returns the tables of a list such as [[spar]]. A single table is taken for a list of one, with
// a finding. name is the table's name in the schema, key its key in the table parent.
func (r *reader) tableList(name, key string, parent *value) []tab {
	v := (tab{r, parent, ""}).get(key)
	if v == nil {
		return nil
	}
	items := v.items
	switch {
	case v.kind == tableKind:
		r.tell(CodeTypeWrong, v.key, v.at, header(name)+" is a list: there may be several.", "Write "+header(name)+" with double brackets.")
		items = []*value{v}
	case v.kind != listKind:
		tab{r, v, ""}.wrongType(v, "a list of tables", header(name)+" on a line of its own, with its keys below")
	case len(items) > 200:
		f := r.tell(CodeTooMany, v.key, items[200].at, fmt.Sprintf("There are %d entries of %s; at most 200 are read.", len(items), header(name)), "Take entries away.")
		f.Got, f.Limit, f.Unit = float64(len(items)), 200, "entries"
		items = items[:200]
	}
	var out []tab
	for _, item := range items {
		if item.kind != tableKind {
			tab{r, item, ""}.wrongType(item, "a table", header(name)+" on a line of its own, with its keys below")
			continue
		}
		r.unknownKeys(item, name)
		out = append(out, tab{r, item, item.key})
	}
	return out
}

// unknownKeys tells of keys that the table does not have.
func (r *reader) unknownKeys(t *value, name string) {
	for _, key := range t.names {
		v := t.fields[key]
		if v.kind == brokenKind || slices.Contains(known(name), key) {
			continue
		}
		message, fix := quote(key)+" is not a key of "+header(name)+".", r.unknownFix(key, name)
		at := v.keyAt
		switch {
		case name == "" && v.kind == tableKind && !v.inline:
			message = header(key) + " is not a table of the rib file."
		case name == "" && v.kind == listKind && !v.declared:
			message = "[[" + strings.TrimSpace(key) + "]] is not a table of the rib file."
		case name == "":
			message = quote(key) + " is not a key of the rib file's top."
		}
		r.tell(CodeKeyUnknown, v.key, at, shorten(message), fix)
	}
}

func (r *reader) unknownFix(key, name string) string {
	if name == "gusset.at" && slices.Contains(schema["gusset"], key) {
		return quote(key) + " is the same for all plates of a rib: set it under [gusset]."
	}
	if name == "wing.rib" && slices.Contains(tables, key) {
		return header(key) + " is the same for all ribs of the wing, which are cut, glued and listed together: set it at the top of the file. Ribs that need another one want a rib file of their own."
	}
	if name == "layers.*" {
		return "A layer may have a name and a color, in a table such as { name = \"CUT\", color = \"red\" }; its lines keep their widths."
	}
	if slices.Contains(tables, key) {
		return header(key) + " is a table of its own: write its keys under that header."
	}
	own := owners(key)
	if len(own) == 1 && own[0] == header("") {
		return "It belongs at the top of the file, above the first header."
	}
	if len(own) > 0 {
		return "It belongs under " + list(own, "or") + ". A key belongs to the last header above it."
	}
	if near := nearest(key, known(name)); near != "" {
		return "Did you mean " + near + "?"
	}
	if name == "" {
		return "The top holds " + list(schema[""], "and") + "; the tables are " + list(tables, "and") + "."
	}
	return header(name) + " may hold " + list(known(name), "and") + "."
}

// shorten keeps a message with a name from the file in it readable.
func shorten(s string) string {
	if r := []rune(s); len(r) > 120 {
		return string(r[:119]) + "…"
	}
	return s
}
