package shop

import (
	"slices"

	"ribwright/export"
	"ribwright/geom"
)

// inked knows where a drawing's items have lines and lettering, item by item.
type inked []itemInk

type itemInk struct {
	item *export.Item
	box  geom.Box
	text quad      // of lettering
	segs []inkLine // of a path, arcs as chords; of lettering the sides of its box
}

type inkLine struct {
	a, b geom.Pt
	box  geom.Box
}

func newInk(items []export.Item) inked {
	out := make(inked, len(items))
	for i := range items {
		it := &items[i]
		k := itemInk{item: it, box: itemBox(*it)}
		if it.Text != nil {
			k.text = textQuad(*it.Text, 0)
			q := k.text.corners()
			k.segs = make([]inkLine, 0, 4)
			for j := range q {
				k.addLine(q[j], q[(j+1)%4])
			}
		} else {
			pts := it.Path.Flatten(0.05)
			if it.Path.Closed && len(pts) > 2 {
				pts = append(pts, pts[0])
			}
			k.segs = make([]inkLine, 0, max(0, len(pts)-1))
			for j := 1; j < len(pts); j++ {
				k.addLine(pts[j-1], pts[j])
			}
		}
		out[i] = k
	}
	return out
}

func (k *itemInk) addLine(a, b geom.Pt) { k.segs = append(k.segs, inkLine{a, b, geom.NewBox(a, b)}) }

// inkRun is some lines that follow each other, and their box.
type inkRun struct {
	lines []inkLine
	box   geom.Box
}

// runs returns all lines, of items that lie on each other mostly once.
func (k inked) runs() []inkRun {
	const most = 16 // lines of a run: few of them are far from the others
	n := 0
	for i := range k {
		n += (len(k[i].segs) + most - 1) / most
	}
	out := make([]inkRun, 0, n)
	last := make(map[geom.Box]int, len(k)) // item with a box
	for i := range k {
		box, lines := k[i].box, k[i].segs
		if j, ok := last[box]; ok && slices.Equal(k[j].segs, lines) {
			continue
		}
		last[box] = i
		for part := range slices.Chunk(lines, most) {
			r := inkRun{lines: part}
			for j := range part {
				r.box = r.box.Union(part[j].box)
			}
			out = append(out, r)
		}
	}
	return out
}

// box returns the bounds of all items.
func (k inked) box() geom.Box {
	var b geom.Box
	for i := range k {
		b = b.Union(k[i].box)
	}
	return b
}

// band returns the box of the ordinates' rows: what their long level lines hold.
func (k inked) band() geom.Box {
	const level, long = 1e-9, 30
	var b geom.Box
	for i := range k {
		if it := &k[i]; it.item.Layer == layerStation && it.item.Text == nil && it.box.H() < level && it.box.W() > long {
			b = b.Union(it.box)
		}
	}
	return b
}

// labels returns the boxes of all lettering.
func (k inked) labels() []geom.Box {
	var out []geom.Box
	for i := range k {
		if k[i].item.Text != nil {
			out = append(out, k[i].box)
		}
	}
	return out
}

// meets reports whether the item has a line or lettering in a box, which is given as a quad too.
func (k *itemInk) meets(b geom.Box, q quad) bool {
	switch {
	case !k.box.Meets(b):
		return false
	case k.item.Text != nil:
		return !q.parts(k.text) && !k.text.parts(q)
	}
	for i := range k.segs {
		if s := &k.segs[i]; s.box.Meets(b) {
			if _, _, hit := q.within(s.a, s.b); hit {
				return true
			}
		}
	}
	return false
}

// within returns the items to draw so that all that shows in a box is there. Of a long outline only the
// stretches that come near the box are taken, so that a page does not carry the whole rib.
func (k inked) within(b geom.Box) []export.Item {
	const near = 2 // mm: more than half a line's width
	q, grown := boxQuad(b), b.Grow(near)
	var out []export.Item
	for j := range k {
		i := &k[j]
		switch {
		case !i.meets(b, q):
		case i.item.Text != nil || i.item.Fill || len(i.item.Path.Segs) < 16 || hasArcs(i.item.Path):
			out = append(out, *i.item)
		default:
			out = append(out, i.stretches(grown)...)
		}
	}
	return out
}

func hasArcs(p geom.Path) bool {
	return slices.ContainsFunc(p.Segs, func(s geom.Seg) bool { return s.Bulge != 0 })
}

// stretches returns the runs of a path of lines that meet a box, the path itself where all of it does.
func (k *itemInk) stretches(b geom.Box) []export.Item {
	var runs [][]geom.Pt
	open := false
	for i := range k.segs {
		s := &k.segs[i]
		if !s.box.Meets(b) {
			open = false
			continue
		}
		if !open {
			runs, open = append(runs, []geom.Pt{s.a}), true
		}
		last := len(runs) - 1
		runs[last] = append(runs[last], s.b)
	}
	if len(runs) == 1 && len(runs[0]) == len(k.segs)+1 {
		return []export.Item{*k.item}
	}
	if n := len(runs); k.item.Path.Closed && n > 1 && runs[0][0] == runs[n-1][len(runs[n-1])-1] { // over the seam
		runs[0] = append(runs[n-1], runs[0][1:]...)
		runs = runs[:n-1]
	}
	out := make([]export.Item, len(runs))
	for i, r := range runs {
		out[i] = *k.item
		out[i].Path = geom.Polyline(r...)
		if i > 0 {
			out[i].ID = ""
		}
	}
	return out
}
