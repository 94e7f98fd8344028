package rib_test

import (
	"fmt"
	"math"
	"math/rand"
	"strings"
	"testing"

	"ribwright/geom"
	"ribwright/geom/finding"
	"ribwright/geom/rib"
)

// randomRib writes a rib file with sizes drawn from r. Not every one can be built: plates may overlap.
func randomRib(r *rand.Rand) string {
	pick := func(s ...string) string { return s[r.Intn(len(s))] }
	chord := 500 + 1500*r.Float64()
	depth := 4 + 4*r.Float64()
	var b strings.Builder
	camber := pick("00", "23", "24", "34", "44", "45")
	fmt.Fprintf(&b, "units = \"mm\"\n[section]\nnaca = \"%s%d\"\n", camber, 12+r.Intn(7))
	if r.Intn(4) == 0 {
		fmt.Fprintf(&b, "skin = [{from = %q, to = \"%s%%\", thickness = %.2f, side = %q}]\n", pick("0%", "0%", "12%"),
			pick("20", "33", "60", "100"), 0.4+2*r.Float64(), pick("upper", "both", "lower"))
	}
	ends := fmt.Sprintf("trailing_edge = \"%s%%\"", pick("100", "100", "80", "95"))
	if r.Intn(4) == 0 { // nose, middle and tail ribs
		ends = pick("trailing_edge = \"front fore\"", "trailing_edge = \"rear aft\"", "leading_edge = \"rear aft\"", "leading_edge = \"front fore\"",
			"leading_edge = \"front aft\"\ntrailing_edge = \"rear fore\"")
	}
	fmt.Fprintf(&b, "[rib]\nchord = %.3f\n%s\n[cap]\ndepth = %.2f\nwidth = 10\n", chord, ends, depth)
	fmt.Fprintf(&b, "[nose]\nblock_to = \"%.2f%%\"\n", 2+6*r.Float64())
	if r.Intn(3) == 0 {
		fmt.Fprintf(&b, "[tail]\nblock_from = \"%d%%\"\n", 74+r.Intn(5))
	}
	fmt.Fprintf(&b, "[[spar]]\nname = \"front\"\nat = \"%.2f%%\"\nwidth = %.1f\nclearance = 0.3\nposts = %s\n", 15+5*r.Float64(), 8+8*r.Float64(), pick("true", "true", "false"))
	lean := ""
	if r.Intn(3) == 0 {
		lean = fmt.Sprintf("tilt = %.2f\nsweep = %.1f\n", 16*r.Float64()-8, 5*float64(r.Intn(3)))
	}
	b.WriteString(lean)
	fmt.Fprintf(&b, "[[spar]]\nname = \"rear\"\nat = \"%.2f%%\"\nwidth = %.1f\n%s", 58+8*r.Float64(), 8+6*r.Float64(), lean)
	fmt.Fprintf(&b, "[stick]\ndepth = %.2f\nwidth = 10\nmeet = %q\n", 4+4*r.Float64(), pick("butt", "mitre"))
	fmt.Fprintf(&b, "[[bay]]\nfrom = \"nose\"\nto = \"front\"\npattern = %q\npanels = 1\nstart = %q\n", pick("warren", "none"), pick("upper", "lower"))
	fmt.Fprintf(&b, "[[bay]]\nfrom = \"front\"\nto = \"rear\"\npattern = %q\npanels = %d\nstart = %q\n", pick("warren", "warren", "pratt", "uprights"), 2+r.Intn(8), pick("upper", "lower"))
	fmt.Fprintf(&b, "[[bay]]\nfrom = \"rear\"\nto = \"%d%%\"\npattern = %q\npanels = %d\nstart = %q\n", 70+r.Intn(4), pick("warren", "pratt", "uprights"), 1+r.Intn(3), pick("upper", "lower"))
	if r.Intn(4) == 0 {
		fmt.Fprintf(&b, "[[line]]\nfrom = \"lower %d%%\"\nto = \"upper %d%%\"\n", 68+r.Intn(4), 68+r.Intn(6))
	}
	if r.Intn(2) == 0 {
		fmt.Fprintf(&b, "[gusset]\nshape = \"round\"\ndiameter = %.1f\ninset = %s\n", 20+20*r.Float64(), pick("0", "0", "0.8"))
	} else {
		fmt.Fprintf(&b, "[gusset]\nshape = \"rectangle\"\nlength = %.1f\nheight = %.1f\n", 25+25*r.Float64(), 15+15*r.Float64())
	}
	return b.String()
}

// TestRandomRibs lays out random ribs and holds what must be true of every one.
func TestRandomRibs(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	clean := 0
	for k := range 60 {
		text := randomRib(r)
		b, fs := build(t, text, "")
		if !finding.HasError(fs) {
			clean++
		}
		func() {
			defer func() {
				if t.Failed() {
					t.Logf("rib %d:\n%s", k, text)
				}
			}()
			holdRib(t, b, fs)
		}()
		if t.Failed() {
			return
		}
	}
	if clean < 20 {
		t.Errorf("only %d of 60 random ribs were without errors: the test tells too little", clean)
	}
}

// holdRib checks a rib's parts against each other with the overlay of polygons, not with the layout's own cuts.
func holdRib(t *testing.T, b *rib.Rib, fs []finding.Finding) {
	t.Helper()
	const tiny = 1e-5 // mm²: what rounding along shared edges may leave
	type part struct {
		id   string
		ring geom.Ring
	}
	var parts []part
	for _, c := range b.Caps {
		parts = append(parts, part{c.ID, c.Outline})
	}
	for _, k := range b.Blocks {
		parts = append(parts, part{k.ID, k.Outline})
	}
	for _, s := range b.Sticks {
		if len(s.Outline) > 0 {
			parts = append(parts, part{s.ID, s.Outline})
		}
	}
	for i, p := range parts {
		if a := p.ring.Area(); a <= 0 {
			t.Errorf("%s: area %g, want an outline that runs counter-clockwise", p.id, a)
		}
		if out := p.ring.Area() - geom.CommonArea(p.ring, b.Contour.Outline); out > tiny {
			t.Errorf("%s: %g mm² stand out of the contour", p.id, out)
		}
		for _, q := range parts[i+1:] {
			if !p.ring.Box().Meets(q.ring.Box()) {
				continue
			}
			if a := geom.CommonArea(q.ring, p.ring); a > tiny {
				t.Errorf("%s and %s share %g mm²", p.id, q.id, a)
			}
		}
		for _, s := range b.Spars {
			if a := geom.CommonArea(p.ring, s.Opening); a > tiny {
				t.Errorf("%s stands %g mm² in the opening of spar %s", p.id, a, s.Name)
			}
		}
	}
	for _, g := range b.Gussets {
		if len(g.Outline.Segs) == 0 {
			continue
		}
		flat := geom.Ring(g.Outline.Flatten(1e-3))
		if out := flat.Area() - geom.CommonArea(flat, b.Contour.Outline); out > 0.05 { // tangent to the curve, not to its chords
			t.Errorf("plate %s stands %g mm² proud of the contour", g.ID, out)
		}
		sum := 0.0
		for id, a := range g.GlueMM2 {
			sum += a
			for _, p := range parts {
				if want := geom.CommonArea(flat, p.ring); p.id == id && math.Abs(a-want) > 0.1 {
					t.Errorf("plate %s on %s: got %g mm², want %g by overlay", g.ID, id, a, want)
				}
			}
		}
		if sum > g.AreaMM2+0.1 {
			t.Errorf("plate %s: %g mm² glued, more than its area %g", g.ID, sum, g.AreaMM2)
		}
		for _, s := range b.Spars {
			lo, hi := math.Inf(1), math.Inf(-1)
			for _, p := range flat {
				lo, hi = math.Min(lo, p.Dot(s.Square())), math.Max(hi, p.Dot(s.Square()))
			}
			if mid := s.At * math.Cos(s.Tilt); lo < mid+s.Gap()/2-1e-6 && hi > mid-s.Gap()/2+1e-6 {
				t.Errorf("plate %s stands in the opening of spar %s", g.ID, s.Name)
			}
		}
	}
	for _, s := range b.Sticks {
		for e := range s.Ends {
			for i, c := range s.Ends[e].Cuts {
				if math.Abs(c.Angle) > math.Pi/2 || s.Ends[e].Gap < 0 || s.Ends[e].Gap > 2.4 { // no more than a skin's step
					t.Errorf("%s end %d cut %d: angle %g, gap %g", s.ID, e, i, c.Angle, s.Ends[e].Gap)
				}
			}
			if len(s.Outline) > 0 && len(s.Ends[e].Cuts) == 0 {
				t.Errorf("%s has no cut at end %d", s.ID, e)
			}
		}
	}
	for _, f := range fs {
		if f.Message == "" || f.Fix == "" || f.Code == "" || f.Key != "" && f.Line == 0 {
			t.Errorf("a finding that tells too little: %+v", f)
		}
	}
}
