package ribfile

import "strings"

// A kind of rib is a word for some keys of the rib file, which [[wing.rib]] may give otherwise.
//
//	full          the rib as the file has it
//	nose          a false rib: it ends at the fore face of the first spar's opening
//	tail          it begins at the aft face of the last spar's opening
//	cut           it ends at the fore face of the last spar's opening, such as an aileron's
//	compression   with its sticks doubled
//	root          with a web of plywood on both faces in place of the plates
//
// What lies beyond an end that a kind cuts off is left out by the layout.
var ribKinds = []string{"full", "nose", "tail", "cut", "compression", "root"}

// Kind returns the kind of a rib: the last that one of Wing.Ribs gives it.
func (w *Wing) Kind(ribs []int) string {
	kind := defaultKind
	for _, i := range ribs {
		if k := w.Ribs[i].Kind; k != "" {
			kind = k
		}
	}
	return kind
}

// kindTables returns what the kind of a rib changes, as a table of the file's top; nil where that is nothing.
func (d *Doc) kindTables(root *value, ribs []int) *value {
	at := 0
	for _, i := range ribs {
		if v := d.writing.kind[i]; v != nil {
			at = v.at
		}
	}
	spars := sparNames(d.changed(root, ribs))
	put := func(table, key string, v *value) *value {
		v.key, v.at, v.keyAt = table+"."+key, at, at
		t := newTable(table, at)
		t.put(key, v)
		top := newTable("", at)
		top.put(table, t)
		return top
	}
	word := func(s string) *value { return &value{kind: textKind, raw: s} }
	switch kind := d.Wing.Kind(ribs); {
	case kind == "nose" && len(spars) > 0:
		return put("rib", "trailing_edge", word(spars[0]+" fore"))
	case kind == "tail" && len(spars) > 0:
		return put("rib", "leading_edge", word(spars[len(spars)-1]+" aft"))
	case kind == "cut" && len(spars) > 0:
		return put("rib", "trailing_edge", word(spars[len(spars)-1]+" fore"))
	case kind == "compression":
		return put("stick", "plies", &value{kind: wholeKind, raw: "2"})
	case kind == "root":
		return put("web", "faces", word("both"))
	}
	return nil
}

// sparNames lists the spars of a file's tree, nose to tail.
func sparNames(root *value) []string {
	var out []string
	if list := root.fields["spar"]; list != nil {
		for _, item := range list.items {
			if name := item.fields["name"]; name != nil && name.kind == textKind {
				out = append(out, strings.TrimSpace(name.raw))
			}
		}
	}
	return out
}
