package wing

import (
	"slices"
	"sync"
	"sync/atomic"

	"ribwright/airfoils"
	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// sections are the wing's sections at root and tip, made when they are first asked for.
type sections struct {
	once      sync.Once
	made      atomic.Bool
	root, tip airfoils.Section
	lines     map[airfoils.Side][]line // of the wing's surface, nose to tail
	atRoot    sync.Once
	plain     *rib.Rib // the rib at the root as the top of the file has it
	found     []finding.Finding
}

// at returns the section in which the tip's weighs so much.
func (s *sections) at(share float64) airfoils.Section {
	if share == 0 {
		return s.root
	}
	return airfoils.Blend(s.root, s.tip, share)
}

// load makes the sections and the surface between them, once.
func (s *sections) load(p Plan, read func(string) ([]byte, error)) {
	s.once.Do(func() {
		s.root, s.tip, s.found = p.ends(read)
		if !finding.HasError(s.found) {
			s.rule(p)
		}
		s.made.Store(true)
	})
}

// rootRib returns the rib at the root as the top of the file has it, laid out.
func (s *sections) rootRib(p Plan) *rib.Rib {
	s.atRoot.Do(func() { s.plain, _ = rib.Build(p.doc, s.root) })
	return s.plain
}

// surfaced reports whether the wing's surface is known.
func (p Plan) surfaced() bool {
	return p.layout != nil && p.sections.made.Load() && p.sections.lines != nil
}

// rule draws the straight lines of the surface.
func (s *sections) rule(p Plan) {
	s.lines = map[airfoils.Side][]line{}
	root, tip := p.place(0), p.place(1)
	for k := firstLine; k <= 100; k += lineStep {
		x := float64(k) / 100
		u0, l0, ok := s.root.At(x)
		u1, l1, ok1 := s.at(p.share(1)).At(x)
		if !ok || !ok1 {
			continue
		}
		add := func(side airfoils.Side, y0, y1 float64) {
			s.lines[side] = append(s.lines[side], line{root.InWing(geom.Pt{X: x, Y: y0}.Mul(p.doc.Rib.Chord)), tip.InWing(geom.Pt{X: x, Y: y1}.Mul(p.wing.TipChord))})
		}
		add(airfoils.UpperSide, u0, u1)
		add(airfoils.LowerSide, l0, l1)
	}
}

// The stations at which the slope of the surface is looked for, percent of the chord: round the nose itself, where a
// swept leading edge slopes as much as it is swept, caps are shaped to the next rib anyway.
const firstLine, lineStep = 2, 2

// Section returns a kind's section: the blend of root and tip, or its own where [[wing.rib]] gives it one. read fetches
// tables from files of their own, as for rib.Section. What is found about root and tip is told with the first kind, but
// for errors, which come with every kind. The call is safe for several kinds at the same time.
func (p Plan) Section(k Kind, read func(string) ([]byte, error)) (airfoils.Section, []finding.Finding) {
	if p.layout == nil || k.own {
		sec, found := rib.Section(k.Doc, read)
		return sec, k.Doc.Locate(found)
	}
	s := p.sections
	s.load(p, read)
	found := slices.Clone(s.found)
	if k.index > 0 {
		found = slices.DeleteFunc(found, func(f finding.Finding) bool { return f.Severity != finding.Error })
	}
	if finding.HasError(found) {
		return airfoils.Section{}, found
	}
	return s.at(k.Share), found
}

// ends makes the sections at root and tip, each with the ends that the file gives it at its own chord.
func (p Plan) ends(read func(string) ([]byte, error)) (root, tip airfoils.Section, found []finding.Finding) {
	root, fs := rib.Section(p.doc, read)
	found = p.doc.Locate(fs)
	if p.tip == nil {
		tip, _ = rib.Section(scaled(p.doc, p.doc.Wing.TipChord), read) // what it finds is told of the root
		return root, tip, found
	}
	tip, fs = rib.Section(p.tip, read)
	return root, tip, append(found, p.tip.Locate(fs)...)
}

// scaled returns the rib file for the same section on another chord; the least thickness of the tail stays.
func scaled(doc *ribfile.Doc, chord float64) *ribfile.Doc {
	d, by := *doc, chord/doc.Rib.Chord
	d.Rib.Chord = chord
	s := &d.Section
	s.Fair, s.NoseRadius = float64(s.Fair*by), float64(s.NoseRadius*by)
	if s.OrdinateUnit == "length" {
		s.Ordinates = slices.Clone(s.Ordinates)
		for i := range s.Ordinates {
			for k := range s.Ordinates[i] {
				s.Ordinates[i][k] *= by
			}
		}
	}
	return &d
}
