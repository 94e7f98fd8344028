package wing_test

import (
	"math"
	"strings"
	"testing"

	"ribwright/geom/finding"
	"ribwright/geom/rib"
)

// Each kind is a word for keys of the file, which a rib may give otherwise; the ribs end where their spars begin.
func TestKindsOfRib(t *testing.T) {
	p := plan(t, plain+`wing = { semi_span = 4000, tip_chord = 1100, washout = 2, spacing = 500, rib = [
		{ ribs = "2", kind = "nose" }, { ribs = "3", kind = "cut" }, { ribs = "4", kind = "compression" },
		{ ribs = "5", kind = "compression", stick = { plies = 3 } }, { ribs = "6", kind = "tail" },
		{ ribs = "7", kind = "cut", rib = { trailing_edge = "rear aft" } }, { between = "8", kind = "nose" },
		{ ribs = "9", kind = "cut", spar = [{ name = "aileron", at = "76%", width = 10 }] },
		{ ribs = "1", kind = "root" }, { between = "1", kind = "root", web = { faces = "near", thickness = 1 } } ] }`)
	if len(p.Kinds) != 11 {
		t.Fatalf("%d kinds", len(p.Kinds))
	}
	for i, want := range []struct {
		name, kind string
		plies      int
		fore, aft  int // the spar at whose face the rib begins or ends; −1: at none
		ends       string
	}{
		{"R1", "root", 1, -1, -1, ""}, {"A1", "root", 1, -1, -1, ""}, {"R2", "nose", 1, -1, 0, "fore"}, {"R3", "cut", 1, -1, 1, "fore"},
		{"R4", "compression", 2, -1, -1, ""}, {"R5", "compression", 3, -1, -1, ""}, {"R6", "tail", 1, 1, -1, ""},
		{"R7", "cut", 1, -1, 1, "aft"}, {"R8", "full", 1, -1, -1, ""}, {"N1", "nose", 1, -1, 0, "fore"}, {"R9", "cut", 1, -1, 2, "fore"},
	} {
		k := p.Kinds[i]
		r, found := rib.Build(k.Doc, section(t, p, k))
		if k.Name != want.name || k.Kind != want.kind || k.Doc.Stick.Plies != want.plies {
			t.Errorf("%s %s, %d plies; want %+v", k.Name, k.Kind, k.Doc.Stick.Plies, want)
		}
		for _, f := range found {
			if f.Severity == finding.Error && f.Code != "gusset-overlap" {
				t.Errorf("%s: %v", k.Name, f)
			}
		}
		web := map[string]string{"R1": "both", "A1": "near"}[k.Name]
		if len(r.Web.Outline) > 0 != (web != "") || web != "" && k.Doc.Web.Faces != web || web == "both" && len(r.Gussets) > 0 {
			t.Errorf("%s: a web on %v and %d plates, want it on %q", k.Name, r.Web.On(), len(r.Gussets), web)
		}
		if handed := strings.Join(p.Handed(k), ", "); strings.Contains(handed, "a web on one face") != (web == "near") {
			t.Errorf("%s: left and right differ for %q", k.Name, handed)
		}
		box := r.Contour.Outline.Box()
		if s := want.aft; s >= 0 {
			spar := k.Doc.Spars[s]
			if off := math.Abs(box.Max.X - spar.At); off > 25 {
				t.Errorf("%s ends at %.1f, and spar %s stands at %.1f", k.Name, box.Max.X, spar.Name, spar.At)
			}
		}
		if s := want.fore; s >= 0 && math.Abs(box.Min.X-k.Doc.Spars[s].At) > 25 {
			t.Errorf("%s begins at %.1f", k.Name, box.Min.X)
		}
		if (want.ends == "aft") != (k.Doc.Rib.TrailingAt.Named && k.Doc.Rib.TrailingAt.Aft) {
			t.Errorf("%s: %+v, want its %s face", k.Name, k.Doc.Rib.TrailingAt, want.ends)
		}
	}
}

// TestRibOfItsOwn: a rib's tables stand over those of the file, and what says the same in another way takes its place.
func TestRibOfItsOwn(t *testing.T) {
	base := plain + `fastener = { kind = "staple", crown = 5 }
adhesive = { ratio = [2, 1], rate = "290 g/m²", coat = "one" }
`
	p := plan(t, base+`wing = { semi_span = 4000, spacing = 1000, rib = [
		{ ribs = "1", section = { builtin = "clark-y" } }, { ribs = "2", fastener = { kind = "nail", wire = 1 } },
		{ ribs = "3", adhesive = { spread = 0.2 }, varnish = { coats = 2 } },
		{ ribs = "4", paper = { size = "A3" }, drawing = { number = "W-4" }, fastener = { spacing = 30 } } ] }`)
	if len(p.Kinds) != 5 {
		t.Fatalf("%d kinds", len(p.Kinds))
	}
	own, want := p.Kinds[4].Doc, func(i int, what string, ok bool) {
		if !ok {
			t.Errorf("%s: not %s", p.Kinds[i].Name, what)
		}
	}
	for i, k := range p.Kinds {
		d := k.Doc
		want(i, "its section", (d.Section.Builtin == "clark-y") == (i == 0) && (d.Section.NACA == own.Section.NACA) == (i != 0))
		want(i, "its fastener", (d.Fastener.Kind == "nail") == (i == 1) && (d.Fastener.Spacing == 30) == (i == 3) && (d.Fastener.Crown == own.Fastener.Crown || i == 1))
		want(i, "its adhesive", (d.Adhesive.Amount == "spread") == (i == 2) && d.Adhesive.RatioA == own.Adhesive.RatioA && d.Adhesive.Coat == "one")
		want(i, "its varnish", (d.Varnish.Coats == 2) == (i == 2))
		want(i, "its paper", (d.Paper.Size == "A3") == (i == 3) && (d.Drawing.Number == "W-4") == (i == 3))
		want(i, "of the whole file", d.Whole().Fastener.Kind == "staple" && d.Whole().Paper.Size == "A4" && d.Whole().Wing != nil)
	}
}
