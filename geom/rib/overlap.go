package rib

import (
	"fmt"
	"math"
	"strings"

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

// pair is two plates that overlap.
type pair struct {
	p, q *placed
	area float64
}

// checkOverlaps finds neighbours that overlap: one finding for each key of the rib file that sizes them, with
// the size that would fit all.
func (b *builder) checkOverlaps(plates []*placed) {
	pairs := map[string][]pair{}
	var keys []string
	for i, p := range plates {
		for _, q := range plates[i+1:] {
			a := overlap(p, q)
			if a < overlapMin {
				continue
			}
			key := p.sizeKey()
			if len(pairs[key]) == 0 {
				keys = append(keys, key)
			}
			pairs[key] = append(pairs[key], pair{p, q, a})
		}
	}
	for _, key := range keys {
		b.overlapping(key, pairs[key])
	}
}

// overlapping makes the finding about pairs whose first plate has its size from one key.
func (b *builder) overlapping(key string, pairs []pair) {
	f := finding.Finding{Severity: finding.Error, Code: "gusset-overlap", Key: key, Got: pairs[0].p.keySize(), Unit: "mm"}
	share, worst := 1.0, pairs[0]
	var names []string
	for _, k := range pairs {
		share = math.Min(share, b.fitting(k.p, k.q))
		if k.area > worst.area {
			worst = k
		}
		names = append(names, k.p.name()+" and "+k.q.name())
		f.At = append(f.At, k.p.centre.Lerp(k.q.centre, 0.5))
	}
	f.Part = strings.Join(names, ", ")
	f.Limit = b.roundDown(f.Got * share)
	f.Message = fmt.Sprintf("The plates at %s overlap by %.0f mm².", names[0], math.Max(1, pairs[0].area))
	if len(pairs) > 1 {
		f.Message = fmt.Sprintf("%d pairs of neighbouring plates overlap: %s; the worst is %s, by %.0f mm².", len(pairs),
			strings.Join(names, ", "), worst.p.name()+" and "+worst.q.name(), math.Max(1, worst.area))
	}
	f.Fix = fmt.Sprintf("%s instead of %s would fit; or move the joints apart with fewer panels.", b.len(f.Limit), b.len(f.Got))
	if f.Limit <= b.CapDepth {
		f.Fix = "No plate of this shape fits: move the joints apart with fewer panels, or leave one bare."
	}
	b.find(f)
}

// sizeKey is the key that gives the plate its size along the cap, and keySize that size.
func (p *placed) sizeKey() string {
	if p.spec.Shape == "round" {
		return p.key + ".diameter"
	}
	return p.key + ".length"
}

func (p *placed) keySize() float64 {
	l, _ := size(p.spec)
	return l
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
