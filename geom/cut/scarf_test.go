package cut_test

import (
	"fmt"
	"math"
	"testing"

	"ribwright/geom/bend"
	"ribwright/geom/rib"
)

// TestScarfs holds where scarfs lie, from bars as short as still leave room between the joints: clear of plates, spars and
// joints, by their outlines; where the cap bends dry; not over each other; and every part fits a bar.
func TestScarfs(t *testing.T) {
	for _, c := range []struct {
		name   string
		bars   float64
		scarfs int
	}{{wren, 1500, 1}, {wren, 1200, 2}, {wren, 1000, 2}, {wren, 600, 5}, {starter, 1000, 2}, {starter, 800, 2}} {
		what := fmt.Sprintf("%s from bars of %g mm", c.name, c.bars)
		set, doc, b := planned(t, c.name, fmt.Sprintf("[[stock.bar]]\nlength = \"%g mm\"\n", c.bars))
		if len(b.Scarfs) != c.scarfs {
			t.Errorf("%s: %d scarfs, want %d", what, len(b.Scarfs), c.scarfs)
		}
		for _, p := range b.Jobs[0].Pieces {
			if p.Length > c.bars-2*doc.Stock.Trim+1e-6 {
				t.Errorf("%s: %s is %g long", what, p.Name(), p.Length)
			}
		}
		r := set[0].Rib
		for i, s := range b.Scarfs {
			if s.Foul != 0 {
				t.Errorf("%s: %s at %.1f fouls by %g", what, s.Part, s.From, s.Foul)
			}
			for _, g := range r.Gussets {
				box := g.Outline.Box()
				onCap := g.GlueMM2[s.Part] > 0
				if onCap && box.Max.X > s.From+1e-6 && box.Min.X < s.To-1e-6 && ownCap(r, g, s.Part) {
					t.Errorf("%s: %s from %.1f to %.1f lies under plate %s, %.1f to %.1f", what, s.Part, s.From, s.To, g.ID, box.Min.X, box.Max.X)
				}
			}
			for _, sp := range r.Spars {
				if s.To > sp.Fore && s.From < sp.Aft {
					t.Errorf("%s: %s from %.1f to %.1f lies over spar %s", what, s.Part, s.From, s.To, sp.Name)
				}
			}
			for _, o := range b.Scarfs[:i] {
				if s.To > o.From && s.From < o.To {
					t.Errorf("%s: scarfs of %s and %s lie over each other", what, s.Part, o.Part)
				}
			}
			if behind := dryFrom(set[0], s.Part); s.From < behind-1e-6 {
				t.Errorf("%s: %s is scarfed at %.1f; it bends dry behind %.1f", what, s.Part, s.From, behind)
			}
			if along := distanceAlong(r, s.Part, s.From, s.To); math.Abs(along-s.Length) > 0.05 {
				t.Errorf("%s: from %.1f to %.1f is %.2f along %s, want %.2f", what, s.From, s.To, along, s.Part, s.Length)
			}
		}
	}
}

func ownCap(r *rib.Rib, g rib.Gusset, id string) bool {
	for _, j := range r.Joints {
		for _, of := range g.Joints {
			if of == j.ID && (j.Side == rib.Upper) == (id == rib.CapUpper) {
				return true
			}
		}
	}
	return false
}

func capOf(r *rib.Rib, id string) rib.Cap {
	for _, c := range r.Caps {
		if c.ID == id {
			return c
		}
	}
	return rib.Cap{}
}

func dryFrom(e rib.Entry, id string) float64 {
	c := capOf(e.Rib, id)
	return bend.Of(bend.Strip{Depth: e.Rib.CapDepth, Edge: c.Edge, Radius: c.RadiusMin, RadiusAt: c.RadiusMinAt}, e.Doc.Bend).DryFrom
}

// distanceAlong measures along a cap's edge between two stations, by small steps on its ordinates.
func distanceAlong(r *rib.Rib, id string, from, to float64) float64 {
	y := func(x float64) float64 {
		up, lo, _ := r.Contour.At(x)
		if id == rib.CapUpper {
			return up
		}
		return lo
	}
	const steps = 200
	sum := 0.0
	for i := range steps {
		a, b := from+(to-from)*float64(i)/steps, from+(to-from)*float64(i+1)/steps
		sum += math.Hypot(b-a, y(b)-y(a))
	}
	return sum
}

// TestScarfLeast: as few parts as the lengths need, told by counting.
func TestScarfLeast(t *testing.T) {
	for _, l := range []float64{2000, 1100, 780, 450, 320} {
		set, doc, b := planned(t, wren, fmt.Sprintf("[[stock.bar]]\nlength = \"%g mm\"\n", l))
		usable, scarf := l-2*doc.Stock.Trim, doc.Stock.Scarf*set[0].Rib.CapDepth
		for _, c := range set[0].Rib.Caps {
			least := 1
			for float64(least)*usable-float64(least-1)*scarf < c.Length+doc.Stock.Allowance-1e-6 {
				least++
			}
			parts, foul := 1, false
			for _, s := range b.Scarfs {
				if s.Part == c.ID {
					parts++
					foul = foul || s.Foul > 0
				}
			}
			if parts < least || parts > least+1 || foul && parts > least {
				t.Errorf("bars of %g mm: %s in %d parts (on joints: %v), %d would do", l, c.ID, parts, foul, least)
			}
		}
	}
	_, _, b := planned(t, wren, "[[stock.bar]]\nlength = \"100 mm\"\n")
	if len(b.Scarfs) > 0 || len(b.Jobs[0].Plan.TooLong) < 2 {
		t.Errorf("bars of 100 mm hold no two scarfs of 60 mm: %+v", b.Scarfs)
	}
}
