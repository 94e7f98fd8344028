package ribfile

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"

	"ribwright/geom/finding"
)

// Standing is where a rib stands in its wing, as far as the rib file for it needs to know.
type Standing struct {
	Chord float64
	Spars []SparStanding // of each of Doc.Spars
	Ribs  []int          // which of Wing.Ribs hold for it; the last one counts
}

// SparStanding is how a spar stands in a rib of a wing.
type SparStanding struct {
	At          float64 // station where its centre plane crosses the chord line, mm
	Tilt, Sweep float64 // radians
}

// writing is a rib file as it was read, kept so that it can be read anew for another rib of the wing.
type writing struct {
	src  *source
	root *value
	told map[place]string // code of what was found at a place
	over []*value         // what each of Wing.Ribs changes, as a table of the file's top
	kind []*value         // and the kind that each names; nil where it names none
}

// keepWriting keeps the tree of the file where it has a [wing].
func (r *reader) keepWriting(fs []finding.Finding) {
	if r.doc.Wing == nil {
		return
	}
	k := &writing{src: r.src, root: r.root, told: map[place]string{}}
	for _, f := range fs {
		k.told[place{f.Line, f.Column}] = f.Code
	}
	for _, item := range r.root.fields["wing"].ribs() {
		k.over, k.kind = append(k.over, item.over()), append(k.kind, item.fields["kind"])
	}
	r.doc.writing = k
}

// ribs returns the entries of [[wing.rib]].
func (v *value) ribs() []*value {
	list := v.fields["rib"]
	if list == nil {
		return nil
	}
	if list.kind == tableKind {
		return []*value{list}
	}
	return slices.DeleteFunc(slices.Clone(list.items), func(item *value) bool { return item.kind != tableKind })
}

// over returns what an entry of [[wing.rib]] changes: its tables, with the keys they have at the file's top.
func (v *value) over() *value {
	t := newTable("", v.at)
	for _, name := range v.names {
		if slices.Contains(ofOneRib, name) {
			t.put(name, v.fields[name].rekeyed(v.key+".", ""))
		}
	}
	return t
}

// rekeyed returns a copy of the value and of all in it, with another beginning of their keys.
func (v *value) rekeyed(old, key string) *value {
	c := *v
	c.key = key + strings.TrimPrefix(v.key, old)
	c.items, c.fields = nil, nil
	for _, item := range v.items {
		c.items = append(c.items, item.rekeyed(old, key))
	}
	if v.fields != nil {
		c.fields = make(map[string]*value, len(v.fields))
		for name, child := range v.fields {
			c.fields[name] = child.rekeyed(old, key)
		}
	}
	return &c
}

// with returns a copy of the table with one field more, or another one.
func (v *value) with(name string, child *value) *value {
	c := *v
	c.names, c.fields = slices.Clone(v.names), make(map[string]*value, len(v.fields)+1)
	for k, f := range v.fields {
		c.fields[k] = f
	}
	if c.fields[name] == nil {
		c.names = append(c.names, name)
	}
	c.fields[name] = child
	return &c
}

// without returns a copy of the table without a field.
func (v *value) without(name string) *value {
	c := *v
	c.names, c.fields = nil, map[string]*value{}
	for _, k := range v.names {
		if k != name {
			c.put(k, v.fields[k])
		}
	}
	return &c
}

// worked returns a figure that the program worked out, at the place of what it stands for.
func worked(n float64, key string, at int) *value {
	return &value{kind: workedKind, key: key, at: at, keyAt: at, num: n}
}

// Stand returns the rib file for one rib of the wing, as if it had been written for that rib alone, and what is wrong
// with it there beside what Read told. Positions given as shares follow the rib's chord; lengths stay.
func (d *Doc) Stand(s Standing) (*Doc, []finding.Finding) {
	root := d.writing.root.without("wing")
	if s.Chord != d.Rib.Chord {
		t := root.fields["rib"]
		root = root.with("rib", t.with("chord", worked(s.Chord, "rib.chord", t.fields["chord"].at)))
	}
	root = d.standSpars(root, s.Spars)
	if kind := d.kindTables(root, s.Ribs); kind != nil {
		root = merged(root, kind, "")
	}
	doc, found := d.reread(d.changed(root, s.Ribs), len(s.Ribs) > 0)
	doc.whole = d
	doc.RootPlates = len(s.Ribs) > 0 && len(doc.Gussets) > 0 && !d.ownPlates(s.Ribs)
	return doc, found
}

// Whole returns the rib file that is about all ribs: of a rib that stands in a wing, the file it is read from.
func (d *Doc) Whole() *Doc {
	if d.whole != nil {
		return d.whole
	}
	return d
}

// SectionName says where the contour comes from.
func (d *Doc) SectionName() string {
	switch s := d.Section; {
	case d.Blended != "":
		return d.Blended
	case s.NACA != "":
		return "NACA " + s.NACA
	case s.Builtin != "":
		return s.Builtin
	case s.File != "":
		return s.File
	}
	return "table of ordinates"
}

// ownPlates reports whether one of Wing.Ribs names the plates of its joints.
func (d *Doc) ownPlates(ribs []int) bool {
	return slices.ContainsFunc(ribs, func(i int) bool {
		t := d.writing.over[i].fields["gusset"]
		return t != nil && t.fields["at"] != nil
	})
}

// changed returns the file's tree with what some of Wing.Ribs change.
func (d *Doc) changed(root *value, ribs []int) *value {
	for _, i := range ribs {
		root = merged(root, d.writing.over[i], "")
	}
	return root
}

// standSpars puts the spars where they stand in the rib.
func (d *Doc) standSpars(root *value, spars []SparStanding) *value {
	list := root.fields["spar"]
	var items []*value
	for i, s := range spars {
		base := d.Spars[i]
		if s == (SparStanding{base.At, base.Tilt, base.Sweep}) {
			continue
		}
		if items == nil {
			items = slices.Clone(list.items)
		}
		item := items[i]
		at := item.fields["at"].at
		for _, k := range []struct {
			name string
			v    float64
			same bool
		}{{"at", s.At, s.At == base.At}, {"tilt", s.Tilt * 180 / math.Pi, s.Tilt == base.Tilt}, {"sweep", s.Sweep * 180 / math.Pi, s.Sweep == base.Sweep}} {
			if !k.same {
				item = item.with(k.name, worked(k.v, item.key+"."+k.name, at))
			}
		}
		items[i] = item
	}
	if items == nil {
		return root
	}
	c := *list
	c.items = items
	return root.with("spar", &c)
}

// merged returns the table with what another one says put over it. Of lists, spars are joined by their names; any other
// list takes the place of the file's, and so do a section from another source, another kind of fastener and another way of
// saying how much adhesive is put on.
func merged(t, over *value, name string) *value {
	for _, key := range over.names {
		child, old := over.fields[key], t.fields[key]
		switch {
		case old != nil && old.kind == tableKind && child.kind == tableKind:
			if name == "" {
				old = outlasting(key, old, child)
			}
			child = merged(old, child, key)
		case name == "" && key == "spar" && old != nil && old.kind == listKind && child.kind == listKind:
			child = mergedSpars(old, child)
		}
		t = t.with(key, child)
	}
	return t
}

// outlasting returns what is left of a table of the file under one of a rib that takes the place of some of it.
func outlasting(name string, t, over *value) *value {
	named := func(keys []string) string {
		for _, key := range keys {
			if over.fields[key] != nil {
				return key
			}
		}
		return ""
	}
	switch name {
	case "section":
		if source := named(sources); source == "" || t.fields[source] != nil {
			return t
		}
		left := newTable(t.key, t.at)
		if skin := t.fields["skin"]; skin != nil {
			left.put("skin", skin)
		}
		return left
	case "fastener":
		if kind := over.fields["kind"]; kind != nil && (t.fields["kind"] == nil || t.fields["kind"].raw != kind.raw) {
			return newTable(t.key, t.at)
		}
	case "adhesive":
		amounts := []string{BySpread, ByRate, BySqueezeOut}
		if named(amounts) != "" {
			for _, key := range amounts {
				t = t.without(key)
			}
		}
	}
	return t
}

func mergedSpars(list, over *value) *value {
	c := *list
	c.items = slices.Clone(list.items)
	for _, item := range over.items {
		name := item.fields["name"]
		i := slices.IndexFunc(c.items, func(v *value) bool {
			return name != nil && v.fields["name"] != nil && v.fields["name"].raw == name.raw
		})
		if i < 0 {
			c.items = append(c.items, item.rekeyed(item.key, fmt.Sprintf("spar[%d]", len(c.items))))
			continue
		}
		c.items[i] = merged(c.items[i], item.rekeyed(item.key, c.items[i].key), "spar")
	}
	return &c
}

// Tip returns a rib file with the section at the tip and the tip's chord, and what is wrong with it. Where the file gives
// no section for the tip, it is the root's.
func (d *Doc) Tip() (*Doc, []finding.Finding) {
	root := newTable("", 0)
	for _, name := range []string{"units", "drawing"} {
		if v := d.writing.root.fields[name]; v != nil {
			root.put(name, v)
		}
	}
	t := newTable("rib", d.writing.root.fields["rib"].at)
	t.put("chord", worked(d.Wing.TipChord, "rib.chord", t.at))
	root.put("rib", t)
	root.put("section", d.writing.root.fields["wing"].fields["tip"].rekeyed("wing.tip", "section"))
	return d.reread(root, true)
}

// reread reads a changed tree. ownPlaces tells that keys stand elsewhere than in the file's own Doc.
func (d *Doc) reread(root *value, ownPlaces bool) (*Doc, []finding.Finding) {
	r := &reader{src: d.writing.src, root: root, doc: &Doc{File: d.File}}
	r.document()
	r.doc.places = d.places
	if ownPlaces {
		r.doc.places = map[string]place{}
		r.notePlaces(root)
	}
	fs := slices.DeleteFunc(r.found(), func(f finding.Finding) bool { return d.writing.told[place{f.Line, f.Column}] == f.Code })
	return r.doc, fs
}

// GrainAt returns which way the face grain of the plate at a joint runs.
func (d *Doc) GrainAt(joint string) string {
	for _, at := range d.Gussets {
		if slices.Contains(at.Joints, joint) {
			return at.Plate.Grain
		}
	}
	return d.Gusset.Grain
}

// Same reports whether two rib files say the same, wherever it stands in them: what a plate's shape leaves unused does not count.
func (d *Doc) Same(e *Doc) bool {
	a, b := d.bare(), e.bare()
	return reflect.DeepEqual(a, b)
}

// Said writes what Same compares: rib files that say the same give the same text.
func (d *Doc) Said() string { return fmt.Sprintf("%+v", d.bare()) }

// bare is what a rib file says of a rib, without places in the file and without sizes that its plates' shapes leave unused.
func (d *Doc) bare() Doc {
	c := *d
	c.places, c.writing, c.whole, c.Wing, c.RootPlates, c.Blended = nil, nil, nil, nil, false, ""
	c.Gusset, c.Gussets = c.Gusset.bare(), nil
	for _, at := range d.Gussets {
		c.Gussets = append(c.Gussets, PlateAt{at.Joints, at.Plate.bare()})
	}
	return c
}

func (p Plate) bare() Plate {
	if p.Shape != "round" {
		p.Diameter = 0
	}
	if p.Shape != "rectangle" {
		p.Length, p.Height = 0, 0
	}
	return p
}
