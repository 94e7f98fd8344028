package wing

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sort"

	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// layout carries a plan while it is made.
type layout struct {
	doc      *ribfile.Doc
	wing     *ribfile.Wing
	tip      *ribfile.Doc // with the section at the tip; nil where the file gives none
	blends   bool
	tipPlace Place
	spars    []SparLine
	ribs     []station
	kinds    []Kind
	found    []finding.Finding
	heard    map[heard]*voice
}

// station is one rib of a wing, on both sides of the aircraft.
type station struct {
	span  float64
	name  string
	over  []int // which of Wing.Ribs hold for it
	added bool  // by at or between
}

// sameSpan is the distance along the span below which two ribs are one, mm.
const sameSpan = 0.01

// number lists the ribs from the root to the tip, and numbers them.
func (l *layout) number() {
	for _, span := range l.wing.Stations {
		l.ribs = append(l.ribs, station{span: span})
	}
	numbered := len(l.ribs)
	added := map[int64][]int{} // of the further ribs, by their place to a millimetre
	for i, w := range l.wing.Ribs {
		for _, n := range w.Ribs {
			l.ribs[n-1].over = append(l.ribs[n-1].over, i)
		}
		spans := slices.Clone(w.At)
		for _, n := range w.Between {
			spans = append(spans, (l.wing.Stations[n-1]+l.wing.Stations[n])/2)
		}
		for _, span := range spans {
			k := l.standsAt(span, numbered, added)
			if k < 0 {
				k = len(l.ribs)
				l.ribs = append(l.ribs, station{span: span, added: true})
				added[int64(span)] = append(added[int64(span)], k)
			}
			l.ribs[k].over = append(l.ribs[k].over, i)
		}
	}
	slices.SortStableFunc(l.ribs, func(a, b station) int { return cmp.Compare(a.span, b.span) })
	n := map[string]int{}
	for i := range l.ribs {
		letter := "R"
		if r := &l.ribs[i]; r.added {
			letter = letters[l.wing.Kind(r.over)]
		}
		n[letter]++
		l.ribs[i].name = fmt.Sprintf("%s%d", letter, n[letter])
	}
}

// letters begin the numbers of further ribs, which stand between the numbered ones.
var letters = map[string]string{"full": "A", "nose": "N", "tail": "T", "cut": "C", "compression": "A", "root": "A"}

// standsAt returns the index of the rib that stands at the span station already, or −1.
func (l *layout) standsAt(span float64, numbered int, added map[int64][]int) int {
	k := sort.Search(numbered, func(i int) bool { return l.ribs[i].span > span-sameSpan })
	if k < numbered && l.ribs[k].span < span+sameSpan {
		return k
	}
	for mm := int64(span) - 1; mm <= int64(span)+1; mm++ {
		for _, k := range added[mm] {
			if d := l.ribs[k].span - span; d < sameSpan && d > -sameSpan {
				return k
			}
		}
	}
	return -1
}

// called returns the name the builder gave the rib; it may be empty.
func (l *layout) called(r station) string {
	name := ""
	for _, i := range r.over {
		if n := l.wing.Ribs[i].Name; n != "" {
			name = n
		}
	}
	return name
}

// group reads the rib file for every rib, and puts those together that are the same.
func (l *layout) group() {
	same := map[string][]int{} // kinds that stand alike in the wing
	read := map[string]int{}   // and have the same keys in the file
	l.heard = map[heard]*voice{}
	for _, r := range l.ribs {
		s := l.standing(r.span)
		s.Ribs = r.over
		t := r.span / l.wing.SemiSpan
		share := l.share(t)
		alike := fmt.Sprint(s.Chord, s.Spars, share)
		whole := fmt.Sprint(alike, s.Ribs)
		k, known := read[whole]
		if !known {
			doc, found := l.doc.Stand(s)
			l.tell(r, found)
			k = slices.IndexFunc(same[alike], func(k int) bool { return l.kinds[k].Doc.Same(doc) })
			if k >= 0 {
				k = same[alike][k]
			} else {
				k = len(l.kinds)
				same[alike] = append(same[alike], k)
				l.kinds = append(l.kinds, Kind{Doc: doc, Kind: l.wing.Kind(r.over), Share: share, index: k, own: l.ownSection(doc)})
			}
			read[whole] = k
		}
		l.stand(&l.kinds[k], r)
	}
	l.entitle(l.kinds)
	l.speak()
}

// share is what the tip's section weighs at the share t of the semi-span: nothing where it is the root's.
func (l *layout) share(t float64) float64 {
	if !l.blends {
		return 0
	}
	return l.weight(t)
}

// blend reports whether the section changes along the span. A size of it that is a length, such as the least thickness of
// the tail, is another share of another chord.
func (l *layout) blend() bool {
	taper := l.wing.TipChord != l.doc.Rib.Chord
	s := l.doc.Section
	if !l.wing.TipGiven {
		return taper && s.TailThickness > 0
	}
	lengths := s.TailThickness > 0 || s.NoseRadius > 0 || s.Fair > 0 || s.OrdinateUnit == "length"
	return taper && lengths || l.ownSection(l.tip)
}

// ownSection reports whether the rib's section is not the wing's.
func (l *layout) ownSection(doc *ribfile.Doc) bool {
	a, b := ribfile.Doc{Section: doc.Section}, ribfile.Doc{Section: l.doc.Section}
	a.Section.Skins, b.Section.Skins = nil, nil
	return !a.Same(&b)
}

// stand adds the rib's places to its kind.
func (l *layout) stand(k *Kind, r station) {
	p := l.place(r.span / l.wing.SemiSpan)
	p.Rib, p.Called, p.Hand, p.Span = r.name, l.called(r), Left, r.span
	k.Places = append(k.Places, p)
	if l.wing.Wings == 2 {
		p.Hand = Right
		k.Places = append(k.Places, p)
	}
}

// blended says what a kind's section is called where the file's name for the root's does not hold.
func (l *layout) blended(k Kind) string {
	if k.own || k.Share == 0 || l.tip == nil {
		return ""
	}
	root, tip := l.doc.SectionName(), l.tip.SectionName()
	switch {
	case root == tip:
		return ""
	case k.Share == 1:
		return tip
	}
	share := math.Round(100 * k.Share)
	return fmt.Sprintf("%g %% %s + %g %% %s", 100-share, root, share, tip)
}

// entitle counts the ribs of every kind, and names it, so that no two have one name. A single kind needs none.
func (l *layout) entitle(kinds []Kind) {
	used := map[string]bool{}
	for i := range kinds {
		k := &kinds[i]
		k.Doc.Rib.Count, k.Doc.Rib.Mirrored = len(k.Places), 0
		if oneFace(k.Doc) || webOnOneFace(k.Doc) {
			for _, p := range k.Places {
				if p.Hand == Right {
					k.Doc.Rib.Mirrored++
				}
			}
		}
		base := cmp.Or(k.called(), k.Places[0].Rib)
		k.Name = base
		for n := 2; used[k.Name]; n++ {
			k.Name = fmt.Sprintf("%s-%d", base, n)
		}
		used[k.Name] = true
	}
	if len(kinds) == 1 {
		kinds[0].Name = ""
	}
	for i := range kinds {
		k := &kinds[i]
		k.Also = k.also()
		k.Doc.Blended = l.blended(*k)
		if k.Doc.Title = l.doc.Title; k.Name != "" {
			k.Doc.Title += ", rib " + k.Name // on everything that is drawn of it
		}
	}
}

// Together returns the plan with kinds put together that are one rib once they are laid out: first[i] is the first kind that
// is the same rib as kind i.
func (p Plan) Together(first []int) Plan {
	var kinds []Kind
	at := map[int]int{} // where the firsts are now
	for i, k := range p.Kinds {
		if n, known := at[first[i]]; known {
			kinds[n].Places = slices.Concat(kinds[n].Places, k.Places)
			continue
		}
		doc := *k.Doc
		k.Doc = &doc
		at[i] = len(kinds)
		kinds = append(kinds, k)
	}
	if len(kinds) == len(p.Kinds) {
		return p
	}
	for i := range kinds {
		slices.SortStableFunc(kinds[i].Places, func(a, b Place) int { return cmp.Compare(a.Span, b.Span) })
	}
	p.entitle(kinds)
	p.Kinds = kinds
	return p
}

// heard is what one finding says, of whatever rib.
type heard struct {
	code, key    string
	line, column int
}

// voice is a finding, and in how many ribs it was made.
type voice struct {
	finding.Finding
	rib  station
	ribs int
}

// tell gathers what was found in a rib.
func (l *layout) tell(r station, found []finding.Finding) {
	for _, f := range found {
		h := heard{f.Code, f.Key, f.Line, f.Column}
		if v := l.heard[h]; v != nil {
			v.ribs++
		} else {
			l.heard[h] = &voice{f, r, 1}
		}
	}
}

// speak tells everything once, with the rib where it was found first.
func (l *layout) speak() {
	for _, v := range l.heard {
		f := v.Finding
		f.Part = v.rib.name
		f.Message = fmt.Sprintf("Rib %s, %s from the root: %s", v.rib.name, l.doc.Length(v.rib.span), f.Message)
		if v.ribs > 1 {
			f.Message += fmt.Sprintf(" It is the same with %d kinds of rib.", v.ribs)
		}
		l.found = append(l.found, f)
	}
	slices.SortFunc(l.found, func(a, b finding.Finding) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column), cmp.Compare(a.Code, b.Code), cmp.Compare(a.Key, b.Key))
	})
}
