package batch_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"ribwright/geom/batch"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/takeoff"
)

// docOf reads a rib file with these tables.
func docOf(t testing.TB, units, tables string) *ribfile.Doc {
	t.Helper()
	doc, fs := ribfile.Read("rib.toml", []byte("units = \""+units+"\"\nsection = { naca = \"0015\" }\nrib = { chord = \"1200 mm\" }\n"+tables))
	if len(fs) > 0 {
		t.Fatal(fs)
	}
	doc.Coupon = ribfile.Coupon{} // see TestCoupon
	return doc
}

// TestCoupon holds that each cup is mixed for a sample joint besides: by hand, 20 × 10 mm with 0.254 mm of film on both
// sides at 1.15 g/cm³, and a fifth lost, are 0.140 g.
func TestCoupon(t *testing.T) {
	doc := docOf(t, "mm", "[scale]\ncup_most = 11.1\n")
	doc.Coupon = ribfile.Coupon{Overlap: 20, Width: 10}
	for _, c := range []struct {
		g    float64
		cups int
	}{{10.9, 1}, {11, 2}} {
		b := batch.Lay(doc, [][]batch.Side{alike(1, c.g)}).Batches[0]
		if want := c.g + float64(c.cups)*200*2*0.254*1.15e-3*1.2; b.Cups != c.cups || math.Abs(b.NeedG-want) > 1e-9 {
			t.Errorf("%g g: got %d cups, %.4f g, want %d cups, %.4f g", c.g, b.Cups, b.NeedG, c.cups, want)
		}
	}
}

// sides are first sides of so many grams.
func sides(grams ...float64) []batch.Side {
	var out []batch.Side
	for i, g := range grams {
		out = append(out, batch.Side{Rib: i + 1, MixedG: g})
	}
	return out
}

func alike(n int, g float64) []batch.Side { return sides(slices.Repeat([]float64{g}, n)...) }

func counts(p batch.Plan) []int {
	var out []int
	for _, b := range p.Batches {
		out = append(out, len(b.Sides))
	}
	return out
}

const maker = "pot_life = \"60 min\"\npot_life_at = \"20 C\"\npot_life_mass = \"100 g\"\n"

// TestPlan works plans out by hand.
func TestPlan(t *testing.T) {
	for _, c := range []struct {
		name, tables string
		run          []batch.Side
		want         []int
	}{
		{"no pot life: four sides", "", alike(26, 11), []int{4, 4, 4, 4, 4, 3, 3}},
		{"a life of 60 min at 15 min a side", "[batch]\n" + maker, alike(26, 11), []int{4, 4, 4, 4, 4, 3, 3}},
		{"at 20 min a side", "[batch]\npace = 20\n" + maker, alike(10, 11), []int{3, 3, 2, 2}},
		{"10 °C warmer: half the life", "[batch]\ntemperature = \"30 C\"\n" + maker, alike(5, 11), []int{2, 2, 1}},
		{"10 °C colder: twice the life", "[batch]\ntemperature = \"10 C\"\n" + maker, alike(9, 11), []int{5, 4}},
		{"a cup of 25 g", "[batch]\n" + maker + "[scale]\ncup_most = \"25 g\"\n", alike(5, 11), []int{2, 2, 1}},
		{"a cup just large enough", "[batch]\n" + maker + "[scale]\ncup_most = \"33 g\"\n", alike(6, 11), []int{3, 3}},
		{"400 g live half as long as 100 g: 2 sides, not 4", "[batch]\n" + maker, alike(4, 200), []int{2, 2}},
		{"unlike sides", "[batch]\n" + maker + "[scale]\ncup_most = \"30 g\"\n", sides(10, 10, 10, 20, 20, 5, 5), []int{2, 2, 3}},
		{"one", "", alike(1, 11), []int{1}},
		{"none", "", nil, nil},
	} {
		p := batch.Lay(docOf(t, "mm", c.tables), [][]batch.Side{c.run})
		if got := counts(p); !slices.Equal(got, c.want) {
			t.Errorf("%s: got %v, want %v", c.name, got, c.want)
		}
	}
}

// TestLife holds the rules by hand: twice as fast with each 10 °C more, and half as long for four times the mass.
func TestLife(t *testing.T) {
	b := ribfile.Batch{PotLife: 40, PotLifeAt: 25, PotLifeMassG: 100, Temperature: 25, RateDoubles: 10, MassPower: 0.5}
	for _, c := range []struct{ at, mass, want float64 }{
		{25, 100, 40}, {35, 100, 20}, {15, 100, 80}, {45, 100, 10}, {20, 100, 40 * math.Sqrt2},
		{25, 400, 20}, {35, 400, 10}, {25, 200, 40 / math.Sqrt2}, {25, 10, 40}, {15, 10, 80},
	} {
		b.Temperature = c.at
		if got := batch.Life(b, c.mass); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%g g at %g °C: got %g min, want %g", c.mass, c.at, got, c.want)
		}
	}
	b.PotLife = 0
	if got := batch.Life(b, 100); !math.IsInf(got, 1) {
		t.Errorf("no pot life: got %g", got)
	}
	// The rule of the trade is Arrhenius' law near room temperature: with an activation energy of 53 kJ/mol, as is usual for such
	// reactions (from memory), the rate doubles from 20 to 30 °C to 3 %.
	const gas, energy = 8.314, 53e3
	if ratio := math.Exp(energy / gas * (1/293.15 - 1/303.15)); math.Abs(ratio-2) > 0.06 {
		t.Errorf("Arrhenius: %.3f times as fast", ratio)
	}
}

// TestPlanProperties holds on random jobs: every side in just one batch and in order, no batch over a limit, as few
// batches as brute force finds, and of those the most even ones.
func TestPlanProperties(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	for range 400 {
		doc := docOf(t, "mm", "")
		doc.Batch.Pace = float64(5 + rnd.IntN(20))
		if rnd.IntN(4) > 0 {
			doc.Batch.PotLife, doc.Batch.PotLifeAt, doc.Batch.PotLifeMassG = float64(30+rnd.IntN(60)), 25, 60
		}
		if rnd.IntN(3) > 0 {
			doc.Scale.CupMost = float64(20 + rnd.IntN(60))
		}
		if rnd.IntN(2) > 0 {
			doc.Scale.CupLeast = float64(rnd.IntN(15))
		}
		var run []batch.Side
		for i := range 1 + rnd.IntN(11) {
			run = append(run, batch.Side{Rib: i + 1, MixedG: 4 + 12*rnd.Float64()})
		}
		p := batch.Lay(doc, [][]batch.Side{run})
		next, squares := 0, 0
		for _, b := range p.Batches {
			need := 0.0
			for _, s := range b.Sides {
				if next++; s.Rib != next {
					t.Fatalf("side %d stands where side %d should", s.Rib, next)
				}
				need += s.MixedG
			}
			squares += len(b.Sides) * len(b.Sides)
			if math.Abs(need-b.NeedG) > 1e-9 || b.MixG < b.NeedG || b.MixG < doc.Scale.CupLeast || b.Cups != 1 {
				t.Fatalf("%+v: the sides need %g g", b, need)
			}
			if over := doc.Scale.CupMost > 0 && b.MixG > doc.Scale.CupMost || b.WorkMin > batch.Life(doc.Batch, b.MixG) || b.WorkMin != float64(len(b.Sides))*doc.Batch.Pace; over {
				t.Fatalf("a limit is broken: %+v of %+v", b, doc.Batch)
			}
		}
		if next != len(run) {
			t.Fatalf("%d of %d sides are in batches", next, len(run))
		}
		if n, sq := fewest(doc, run); n != len(p.Batches) || sq != squares {
			t.Fatalf("got %v, brute force finds %d batches, squares %d", counts(p), n, sq)
		}
	}
}

// fewest tries every way to part a run, and returns the least number of batches and, of those, the least sum of squares.
func fewest(doc *ribfile.Doc, run []batch.Side) (batches, squares int) {
	batches = math.MaxInt
	for cuts := range 1 << (len(run) - 1) { // bit i: a batch ends behind side i
		n, sq, need, k, ok := 0, 0, 0.0, 0, true
		for i, s := range run {
			need, k = need+s.MixedG, k+1
			if i < len(run)-1 && cuts>>i&1 == 0 {
				continue
			}
			mass := max(need, doc.Scale.CupLeast)
			ok = ok && (doc.Scale.CupMost == 0 || mass <= doc.Scale.CupMost)
			if doc.Batch.PotLife == 0 {
				ok = ok && k <= 4
			} else {
				ok = ok && float64(k)*doc.Batch.Pace <= batch.Life(doc.Batch, mass)
			}
			n, sq, need, k = n+1, sq+k*k, 0, 0
		}
		if ok && (n < batches || n == batches && sq < squares) {
			batches, squares = n, sq
		}
	}
	return batches, squares
}

// TestCards works by hand how batches are weighed: at 1:1, 22 g on a scale of 0.1 g are 110 steps of A, ± ½, and 110 of B,
// ± 1. That is off by 110.5/109 at most, 1.4 %; on a scale of 0.2 g, 55.5/54, 2.8 %.
func TestCards(t *testing.T) {
	for _, c := range []struct{ step, off float64 }{{0.1, 110.5/109 - 1}, {0.2, 55.5/54 - 1}} {
		doc := docOf(t, "mm", "")
		doc.Scale.Step = c.step
		k := batch.Lay(doc, [][]batch.Side{alike(2, 11)}).Batches[0].Card
		if math.Abs(k.AG-11) > 1e-9 || math.Abs(k.TotalG-22) > 1e-9 || math.Abs(k.Error.Worst()-c.off) > 1e-9 || k.Within != (c.off < 0.02) {
			t.Errorf("step %g: %+v, want off by %.4f", c.step, k, c.off)
		}
	}
}

// TestCups works by hand what one cup cannot do for one side.
func TestCups(t *testing.T) {
	for _, c := range []struct {
		name, tables string
		g            float64
		cups         int
		code         string
	}{
		{"35 g in cups of 15 g", "[scale]\ncup_most = \"15 g\"", 35, 3, "cup-small"},
		{"15 min a side in a life of 8 min", "[batch]\npot_life = 8\npot_life_at = 20\npot_life_mass = 100", 10, 2, "pot-life-short"},
		{"400 g live 10 of 20 min; 200 g 14 min", "[batch]\npot_life = 20\npot_life_at = 20\npot_life_mass = 100", 400, 2, "pot-life-short"},
		{"one cup", "[batch]\npot_life = 20\npot_life_at = 20\npot_life_mass = 100", 100, 1, ""},
	} {
		doc := docOf(t, "mm", c.tables+"\n")
		p := batch.Lay(doc, [][]batch.Side{alike(2, c.g)})
		code := ""
		for _, f := range p.Findings(doc) {
			code += f.Code
		}
		if b := p.Batches[0]; b.Cups != c.cups || len(p.Batches) != 2 || code != c.code || math.Abs(b.CupG()*float64(b.Cups)-c.g) > 1e-9 {
			t.Errorf("%s: %d cups, findings %q, want %d, %q", c.name, b.Cups, code, c.cups, c.code)
		}
	}
}

// TestFindings holds each limit against a plan that breaks it, and against one that just keeps it.
func TestFindings(t *testing.T) {
	for _, c := range []struct{ keeps, breaks, code, key string }{
		{"cure_least = \"20 C\"", "cure_least = \"20.1 C\"", "shop-cold", "batch.temperature"},
		{"pot_life_at = 20\nopen_time = 15", "pot_life_at = 20\nopen_time = 14.9", "open-time", "batch.open_time"},
		{"pot_life_at = 10\nopen_time = 30", "pot_life_at = 10\nopen_time = 29", "open-time", "batch.open_time"}, // at 20 °C half of it
		{"pot_life_at = 20\nclosed_time = 15", "pot_life_at = 20\nclosed_time = 10", "closed-time", "batch.closed_time"},
		{"pot_life = 15\npot_life_at = 20\npot_life_mass = 50", "pot_life = 14\npot_life_at = 20\npot_life_mass = 50", "pot-life-short", "batch.pot_life"},
		{"[scale]\nstep = 0.1", "[scale]\nstep = 0.2", "batch-coarse", "scale.step"}, // 22 g: see TestCards
		{"[scale]\nstep = 0.1", "[scale]\nstep = 11", "batch-coarse", "scale.step"},
		{"[scale]\ncup_most = 11", "[scale]\ncup_most = 10.9", "cup-small", "scale.cup_most"},
		{"[scale]\ncup_least = 22", "[scale]\ncup_least = 22.1", "batch-small", "scale.cup_least"},
	} {
		for _, tables := range []string{c.keeps, c.breaks} {
			doc := docOf(t, "mm", "[batch]\n"+tables+"\n")
			fs := batch.Lay(doc, [][]batch.Side{alike(2, 11)}).Findings(doc)
			want := 0
			if tables == c.breaks {
				want = 1
			}
			if len(fs) != want || want == 1 && (fs[0].Code != c.code || fs[0].Key != c.key || fs[0].Message == "" || fs[0].Fix == "" || fs[0].Unit == "" || strings.Contains(fs[0].Message, "Inf")) {
				t.Errorf("%q: got %v, want %d of %s", tables, fs, want, c.code)
			}
		}
	}
}

const small = `section = { naca = "0015" }
rib = { chord = "1200 mm", count = 5 }
cap = { depth = "6 mm", width = "12 mm" }
stick = { depth = "6 mm", width = "12 mm" }
spar = [{ name = "front", at = "15%", width = "16 mm" }, { name = "rear", at = "65%", width = "12 mm" }]
bay = [{ from = "front", to = "rear", pattern = "uprights", panels = 3 }]
gusset = { shape = "round", diameter = "36 mm", thickness = "1.5 mm" }
`

func planOf(t testing.TB, text string) (batch.Plan, rib.Set) {
	t.Helper()
	doc, fs := ribfile.Read("rib.toml", []byte(text))
	sec, more := rib.Section(doc, nil)
	r, found := rib.Build(doc, sec)
	if all := slices.Concat(fs, more, found); len(all) > 0 {
		t.Fatal(all)
	}
	set := rib.One(r, doc)
	return batch.Of(set, []takeoff.TakeOff{takeoff.Of(r, doc)}), set
}

// TestUnits holds that a file in inches, Fahrenheit, ounces and lb/MSGL gives the plan of the same file in metric units.
func TestUnits(t *testing.T) {
	metric, set := planOf(t, "units = \"mm\"\n"+small+`adhesive = { rate = 488.2427636383, glue_line = 0.1 }
batch = { temperature = 25, pace = 12, pot_life = "1 h", pot_life_at = 20, pot_life_mass = 113.3980925 }
scale = { cup_most = 56.69904625, cup_least = 0 }
`)
	inch, _ := planOf(t, "units = \"in\"\n"+small+`adhesive = { rate = 100, glue_line = "0.1 mm" }
batch = { temperature = 77, pace = "12 min", pot_life = 60, pot_life_at = 68, pot_life_mass = 4 }
scale = { cup_most = 2, cup_least = 0 }
`)
	if len(metric.Batches) != len(inch.Batches) || len(metric.Batches) < 2 {
		t.Fatalf("got %v in metric units and %v in inches", counts(metric), counts(inch))
	}
	for i, m := range metric.Batches {
		n := inch.Batches[i]
		if m.Names(set) != n.Names(set) || math.Abs(m.MixG-n.MixG) > 1e-6 || math.Abs(m.LifeMin-n.LifeMin) > 1e-6 {
			t.Errorf("batch %d: %+v in metric units, %+v in inches", i+1, m, n)
		}
	}
}

// TestOf holds that both sides of every rib of a set are done, first sides before second ones, and the kinds named.
func TestOf(t *testing.T) {
	_, one := planOf(t, "units = \"mm\"\n"+small)
	set := rib.Set{{Name: "R1", Doc: one[0].Doc, Rib: one[0].Rib}, {Name: "R2", Doc: one[0].Doc, Rib: one[0].Rib}}
	take := takeoff.Of(one[0].Rib, one[0].Doc)
	p := batch.Of(set, []takeoff.TakeOff{take, take})
	var got []string
	sum := 0.0
	for _, b := range p.Batches {
		got = append(got, fmt.Sprintf("%d: %s", b.Sides[0].Face+1, b.Names(set)))
		sum += b.MixG
	}
	want := []string{"1: R1 1–4", "1: R1 5, R2 1–2", "1: R2 3–5", "2: R1 1–4", "2: R1 5, R2 1–2", "2: R2 3–5"}
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
	if all := 10*take.Adhesive.MixedG + 6*take.Coupon.Adhesive.MixedG; math.Abs(sum-all) > 1e-9 {
		t.Errorf("batches of %g g, want %g g", sum, all)
	}
	if r := p.Report(set); len(r) != 6 || r[0].UseWithin != nil || r[1].Ribs != "R1 5, R2 1–2" || r[3].Side != 2 {
		t.Errorf("report: %+v", r)
	}
}

// TestSessions holds that batches keep within the sessions that are planned, do the sides of both faces where a session does,
// and last while the sticks of further ribs are laid: by hand, 4 ribs, a side in 15 min, laid in 10.
func TestSessions(t *testing.T) {
	for _, c := range []struct {
		keys string
		want []string
	}{
		{"jigs = 2", []string{"1–2 30 min", "3–4 (side 1), 1–2 (side 2) 60 min", "3–4 30 min"}},
		{"in_jig = \"remove\"", []string{"1–2 (side 1), 1–2 (side 2) 70 min", "3–4 (side 1), 3–4 (side 2) 70 min"}},
	} {
		p, set := planOf(t, "units = \"mm\"\n"+strings.Replace(small, "count = 5", "count = 4", 1)+"[batch]\npace = 15\n[session]\ntime = \"2 h\"\nlay = 10\n"+c.keys+"\n")
		var got []string
		for i, b := range p.Batches {
			got = append(got, fmt.Sprintf("%s %g min", b.Names(set), b.WorkMin))
			if side := p.Report(set)[i].Side; b.Mixed() != (side == 0) {
				t.Errorf("batch %d: side %d in the report", b.Number, side)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%q: got %q, want %q", c.keys, got, c.want)
		}
	}
	doc := docOf(t, "mm", "[batch]\npace = 10\npot_life = 60\npot_life_at = 20\npot_life_mass = 1000\n[session]\nlay = 20\njigs = 1\n") // 10 + 30 + 30 > 60
	if got := counts(batch.Lay(doc, [][]batch.Side{alike(4, 5)})); !slices.Equal(got, []int{2, 2}) {
		t.Errorf("a pot life of an hour: %v sides from a batch, want 2 and 2", got)
	}
}

func BenchmarkLay(b *testing.B) {
	doc, run := docOf(b, "mm", "[batch]\n"+maker), alike(10000, 1)
	for b.Loop() {
		batch.Lay(doc, [][]batch.Side{run})
	}
}

// TestCoarseWords holds that one batch is spoken of as one, and that a figure over its limit reads as more than it.
func TestCoarseWords(t *testing.T) {
	doc := docOf(t, "mm", "[scale]\nstep = 0.1\n")
	for _, c := range []struct {
		g    float64
		want string
	}{
		{14.9 / 2, "Batch 1 is so small that the scale's step may put its ratio off too far, 14.9 g, by 2.03 %, where 2 % are allowed."},
		{4, "Batch 1 is so small that the scale's step may put its ratio off too far, 8.00 g, by 3.8 %, where 2 % are allowed."},
	} {
		fs := batch.Lay(doc, [][]batch.Side{alike(2, c.g)}).Findings(doc)
		if len(fs) != 1 || fs[0].Message != c.want {
			t.Errorf("got %v, want %q", fs, c.want)
		}
	}
	fs := batch.Lay(doc, [][]batch.Side{alike(2, 4), alike(2, 4)}).Findings(doc)
	if len(fs) != 1 || !strings.Contains(fs[0].Message, "2 of 2 batches are so small") || !strings.Contains(fs[0].Message, "most in batch 1, 8.00 g, by 3.8 %") {
		t.Errorf("got %v", fs)
	}
}
