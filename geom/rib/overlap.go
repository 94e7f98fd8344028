package rib

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// overlapMin is the common area, mm², from which two plates count as overlapping: a touch of two discs, or
// a hair, is none.
const overlapMin = 0.05

// overlap returns the area that two plates have in common.
func overlap(p, q *placed) float64 {
	if !p.box.Meets(q.box) {
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
	worst := pairs[0]
	var names []string
	for _, k := range pairs {
		if k.area > worst.area {
			worst = k
		}
		names = append(names, k.p.name()+" and "+k.q.name())
		f.At = append(f.At, k.p.centre.Lerp(k.q.centre, 0.5))
	}
	f.Part = strings.Join(names, ", ")
	f.Limit = b.fitting(key, f.Got)
	f.Message = fmt.Sprintf("The plates at %s overlap by %s.", names[0], b.doc.Area(math.Max(1, pairs[0].area)))
	if len(pairs) > 1 {
		f.Message = fmt.Sprintf("%d pairs of neighbouring plates overlap: %s; the worst is %s, by %s.", len(pairs),
			strings.Join(names, ", "), worst.p.name()+" and "+worst.q.name(), b.doc.Area(math.Max(1, worst.area)))
	}
	f.Fix = fmt.Sprintf("%s instead of %s would fit; or move the joints apart with fewer panels.", b.len(f.Limit), b.len(f.Got))
	if f.Limit <= b.CapDepth {
		f.Fix = "No plate of this shape fits: move the joints apart with fewer panels, or leave one bare."
	}
	b.find(f)
}

// fitting returns the largest size below the one given that a builder would choose, in sixteenths of an inch or
// half millimetres, at which no plate with its size from the key overlaps another.
func (b *builder) fitting(key string, got float64) float64 {
	step := 0.5
	if b.doc.Units == ribfile.Inch {
		step = ribfile.MMPerInch / 16
	}
	fits := func(n int) bool {
		plates := b.layPlates(key, float64(float64(n)*step))
		for i, p := range plates {
			for _, q := range plates[i+1:] {
				if (p.sizeKey() == key || q.sizeKey() == key) && overlap(p, q) >= overlapMin {
					return false
				}
			}
		}
		return true
	}
	most := int(math.Ceil(got/step)) - 1
	n := sort.Search(most, func(k int) bool { return !fits(k + 1) })
	for n > 0 && !fits(n) { // plates that grow together to full depth may let a larger size pass than a smaller one
		n--
	}
	return float64(float64(n) * step)
}

// sizeKey is the rib file's key that gives a plate its size along the cap.
func sizeKey(key string, spec ribfile.Plate) string {
	if spec.Shape == "round" {
		return key + ".diameter"
	}
	return key + ".length"
}

func (p *placed) sizeKey() string { return sizeKey(p.key, p.spec) }

// keySize is that size as the rib file gives it.
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
