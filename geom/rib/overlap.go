package rib

import (
	"fmt"
	"math"

	"ribwright/geom"
	"ribwright/geom/finding"
)

// overlapMin is the common area, mm², from which two plates count as overlapping: a touch of two discs, or
// a hair, is none.
const overlapMin = 0.05

// overlap returns the area that two plates have in common.
func overlap(p, q *placed) float64 {
	if !p.path.Box().Meets(q.path.Box()) {
		return 0
	}
	if p.shape == Round && q.shape == Round && p.centre.Dist(q.centre) >= (p.spec.Diameter+q.spec.Diameter)/2 {
		return 0
	}
	return geom.CommonArea(p.path.Flatten(geom.Flat), q.path.Flatten(geom.Flat))
}

// checkOverlaps finds neighbours that overlap, with the size that would fit.
func (b *builder) checkOverlaps(plates []*placed) {
	for i, p := range plates {
		for _, q := range plates[i+1:] {
			a := overlap(p, q)
			if a < overlapMin {
				continue
			}
			share := b.fitting(p, q)
			key, got := p.key+".diameter", p.spec.Diameter
			if p.shape != Round {
				key, got = p.key+".length", p.joined()
			}
			limit := b.roundDown(got * share)
			f := finding.Finding{Severity: finding.Error, Code: "gusset-overlap", Key: key, Part: p.name() + ", " + q.name(),
				At: []geom.Pt{p.centre, q.centre}, Got: got, Limit: limit, Unit: "mm",
				Message: fmt.Sprintf("The plates at %s and %s overlap by %.0f mm².", p.name(), q.name(), math.Max(1, a))}
			f.Fix = fmt.Sprintf("%s instead of %s would fit; or move the joints apart with fewer panels.", b.len(limit), b.len(got))
			if limit <= b.CapDepth {
				f.Fix = "No plate of this shape fits both joints: move them apart with fewer panels, or leave one bare."
			}
			b.find(f)
		}
	}
}

// joined returns the plate's length as the rib file gives it.
func (p *placed) joined() float64 {
	if p.shape != FullDepth {
		return p.spec.Length
	}
	return p.spec.Length - math.Abs(p.joints[0].Station-p.joints[1].Station)
}

func (p *placed) name() string {
	if len(p.joints) == 2 {
		return p.joints[0].ID + "+" + p.joints[1].ID
	}
	return p.joints[0].ID
}

// fitting returns the largest share of their sizes at which two plates do not overlap.
func (b *builder) fitting(p, q *placed) float64 {
	lo, hi := 0.0, 1.0
	for range 30 {
		k := (lo + hi) / 2
		if overlap(b.scaled(p, k), b.scaled(q, k)) < overlapMin {
			lo = k
		} else {
			hi = k
		}
	}
	return lo
}

// scaled returns the plate as it would be at a share of its size.
func (b *builder) scaled(p *placed, k float64) *placed {
	spec := p.spec
	spec.Diameter, spec.Length = k*spec.Diameter, k*spec.Length
	if p.shape != FullDepth {
		return b.place(spec, p.key, p.joints[0])
	}
	f := *p
	f.spec, f.halves = spec, nil
	f.rect = make(geom.Ring, len(p.rect))
	for i, c := range p.rect {
		f.rect[i] = geom.Pt{X: p.centre.X + float64(k*(c.X-p.centre.X)), Y: c.Y}
	}
	b.trim(&f, p.joints[0].At.Lerp(p.joints[1].At, 0.5))
	return &f
}

// roundDown returns the next size below that a builder would choose: a sixteenth of an inch or half a millimetre.
func (b *builder) roundDown(mm float64) float64 {
	step := 0.5
	if b.doc.Units == "in" {
		step = 25.4 / 16
	}
	return float64(math.Floor(mm/step) * step)
}
