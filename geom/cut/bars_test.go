package cut_test

import (
	"fmt"
	"math"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"ribwright/geom/cut"
	"ribwright/geom/finding"
	"ribwright/geom/pack"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// stocks are bars to saw the demos from: none named, short ones, several with prices, counted ones, some for caps alone.
var stocks = []string{
	"",
	"[[stock.bar]]\nlength = \"1200 mm\"\n",
	"[[stock.bar]]\nlength = \"600 mm\"\n[[stock.bar]]\nlength = \"900 mm\"\n",
	"[[stock.bar]]\nlength = \"3 m\"\nof = \"caps\"\n[[stock.bar]]\nlength = \"1 m\"\ncount = 30\n[[stock.bar]]\nlength = \"1500 mm\"\nof = \"sticks\"\n",
	"[[stock.bar]]\nlength = \"8 ft\"\nprice = 6.40\n[[stock.bar]]\nlength = \"1.8 m\"\nprice = 4.20\n[[stock.bar]]\nlength = \"1 m\"\ncount = 7\n",
	"[[stock.bar]]\nlength = \"2 m\"\ncount = 9\n",
}

// quick is how many of the stocks are planned in a moment; the others take the whole effort, some seconds.
const quick = 4

// planned reads a rib file with other bars than its own, and plans them.
func planned(t testing.TB, name, bars string) (rib.Set, *ribfile.Doc, cut.Bars) {
	t.Helper()
	r, doc := layOut(t, name, "")
	doc.Stock = stockOf(t, bars)
	set := rib.One(r, doc)
	return set, doc, cut.NewBars(set).Planned()
}

func stockOf(t testing.TB, bars string) ribfile.Stock {
	t.Helper()
	doc, fs := ribfile.Read("", []byte("units = \"mm\"\nsection = { naca = \"0012\" }\nrib.chord = 1000\n"+bars))
	if finding.HasError(fs) {
		t.Fatal(fs)
	}
	return doc.Stock
}

// TestBars holds the plans of the demos: every piece of the set is sawn just as often as it is there, pieces and cuts lie
// within the bars one behind the other, and no more bars are taken than there are.
func TestBars(t *testing.T) {
	for _, name := range []string{wren, bunting, starter} {
		for i, bars := range stocks {
			if i >= quick && name == bunting {
				continue
			}
			set, _, b := planned(t, name, bars)
			holdBars(t, name+"\n"+bars, set, b)
		}
	}
}

// TestBarsOfRandomRibs does the same for ribs with sizes as they come, in sets of two kinds.
func TestBarsOfRandomRibs(t *testing.T) {
	r := rand.New(rand.NewSource(5))
	for k := range 8 {
		var set rib.Set
		stock := stockOf(t, fmt.Sprintf("[stock]\nkerf = %.1f\ntrim = %d\nallowance = %d\n%s", 3*r.Float64(), r.Intn(20), r.Intn(40), stocks[r.Intn(quick)]))
		for i := range 2 {
			text := fmt.Sprintf("units = \"mm\"\nsection = { naca = \"2412\" }\nrib = { chord = %.2f, count = %d }\ncap = { depth = %d, width = 10 }\nnose = { block_to = \"5%%\" }\nstick = { meet = %q }\n"+
				"spar = [{ name = \"front\", at = \"16%%\", width = 14 }, { name = \"rear\", at = \"62%%\", width = 10 }]\nbay = [{ from = \"front\", to = \"rear\", pattern = %q, panels = %d }]\n",
				700+1200*r.Float64(), 1+r.Intn(8), 5+r.Intn(2), []string{"butt", "mitre"}[r.Intn(2)], []string{"warren", "pratt", "uprights"}[r.Intn(3)], 3+r.Intn(6))
			doc, fs := ribfile.Read("", []byte(text))
			sec, fs2 := rib.Section(doc, nil)
			if finding.HasError(append(fs, fs2...)) {
				t.Fatal(text, fs, fs2)
			}
			doc.Stock = stock
			one, _ := rib.Build(doc, sec)
			set = append(set, rib.Entry{Name: fmt.Sprint("R", i+1), Doc: doc, Rib: one})
		}
		holdBars(t, fmt.Sprint("set ", k), set, cut.NewBars(set).Planned())
	}
}

func holdBars(t *testing.T, what string, set rib.Set, b cut.Bars) {
	t.Helper()
	holdPieces(t, what, set, b)
	for i, j := range b.Jobs {
		if j.Err != nil {
			t.Fatalf("%s: %v", what, j.Err)
		}
		sawn, taken := make([]int, len(j.Pieces)), make([]int, len(j.Kinds))
		for _, p := range j.Plan.Patterns {
			kind := j.Kinds[p.Stock]
			taken[p.Stock] += p.Count
			at := b.Stock.Trim
			wood := 0.0
			for k, c := range p.Cuts {
				sawn[c.Piece] += p.Count
				piece := j.Pieces[c.Piece]
				box := j.Lies(c).Box()
				if math.Abs(box.Min.X-c.From) > 1e-6 || math.Abs(box.W()-piece.Length) > 1e-6 {
					t.Errorf("%s: %s lies from %g, %g long; want %g, %g", what, piece.Name(), box.Min.X, box.W(), c.From, piece.Length)
				}
				gap := c.From - at
				if k == 0 {
					gap += b.Stock.Kerf
				}
				if !c.Shared && gap < b.Stock.Kerf-1e-6 {
					t.Errorf("%s: %s begins %g behind the piece before it, a cut takes %g", what, piece.Name(), gap, b.Stock.Kerf)
				}
				if c.Shared {
					holdShared(t, what, b, j, p.Cuts[k-1], c)
				}
				at = c.From + piece.Length
				wood += j.Lies(c).Area()
			}
			if at > kind.Length-b.Stock.Trim+1e-5 || math.Abs(wood) > kind.Length*j.Depth {
				t.Errorf("%s: a bar of %g is used up to %g, %g trimmed off its end", what, kind.Length, at, b.Stock.Trim)
			}
			if left := kind.Length - b.Stock.Trim - at; p.Left > left+1e-6 || p.Keep && p.Left < b.Stock.Offcut {
				t.Errorf("%s: %g of %g left, kept %v", what, p.Left, left, p.Keep)
			}
		}
		missing := j.Missing()
		for k, p := range j.Pieces {
			if sawn[k]+missing[k] != p.Count {
				t.Errorf("%s: %s is sawn %d times and missing %d times, want %d", what, p.Name(), sawn[k], missing[k], p.Count)
			}
		}
		for k, n := range taken {
			if n != j.Plan.Buy[k] || j.Kinds[k].Count > 0 && n > j.Kinds[k].Count {
				t.Errorf("%s, job %d: %d bars of %s, %d to buy, %d there", what, i, n, j.Kinds[k].Name, j.Plan.Buy[k], j.Kinds[k].Count)
			}
		}
	}
}

// holdPieces: the pieces are the set's caps and sticks, each once for every rib.
func holdPieces(t *testing.T, what string, set rib.Set, b cut.Bars) {
	t.Helper()
	sticks, caps := map[string]int{}, map[string]float64{} // of a cap the length of all its parts
	parts := map[string]int{}
	for _, j := range b.Jobs {
		for _, p := range j.Pieces {
			if !p.Cap {
				for _, id := range p.IDs {
					sticks[id]++
				}
				continue
			}
			id := p.IDs[0]
			id = strings.TrimRight(id, "-0123456789")
			caps[id] += p.Length
			parts[id]++
		}
	}
	for _, e := range set {
		for _, s := range e.Rib.Pieces() {
			if n := sticks[e.Part(s.ID)]; len(s.Outline) > 0 && n != 1 {
				t.Errorf("%s: %s is %d pieces", what, e.Part(s.ID), n)
			}
		}
		for _, c := range e.Rib.Caps {
			id := e.Part(c.ID)
			want := c.Length + b.Stock.Allowance + float64(parts[id]-1)*b.Stock.Scarf*e.Rib.CapDepth
			if math.Abs(caps[id]-want) > 1e-6 {
				t.Errorf("%s: %s is %g long in %d parts, want %g", what, id, caps[id], parts[id], want)
			}
		}
	}
	n := 0
	for _, s := range b.Scarfs {
		n += 1
		if s.To <= s.From || math.Abs(s.Length-b.Stock.Scarf*set[0].Rib.CapDepth) > 1e-9 && len(set) == 1 {
			t.Errorf("%s: a scarf from %g to %g, %g long", what, s.From, s.To, s.Length)
		}
	}
	for _, k := range parts {
		n -= k - 1
	}
	if n != 0 {
		t.Errorf("%s: %d scarfs too many for the parts", what, n)
	}
}

// holdShared: both pieces end in slopes that are parallel, a cut's width apart.
func holdShared(t *testing.T, what string, b cut.Bars, j cut.BarJob, last, c pack.BarCut) {
	t.Helper()
	l, okL := j.Angles(last)
	r, okR := j.Angles(c)
	if !okL[1] || !okR[0] || math.Abs(l[1]-r[0]) > 0.11*math.Pi/180 {
		t.Errorf("%s: %s and %s share a cut at %.2f° and %.2f°", what, j.Pieces[last.Piece].Name(), j.Pieces[c.Piece].Name(), l[1]*180/math.Pi, r[0]*180/math.Pi)
		return
	}
	// The gap between the outlines, square to the slope, at the foot and at the head of the bar.
	gap := math.Inf(1)
	left, right := j.Lies(last), j.Lies(c)
	for _, y := range []float64{0, j.Depth} {
		end, begin := math.Inf(-1), math.Inf(1)
		for _, p := range left {
			if math.Abs(p.Y-y) < 1e-6 {
				end = math.Max(end, p.X)
			}
		}
		for _, p := range right {
			if math.Abs(p.Y-y) < 1e-6 {
				begin = math.Min(begin, p.X)
			}
		}
		gap = math.Min(gap, (begin-end)*math.Cos(l[1]))
	}
	if gap < b.Stock.Kerf-1e-4 || gap > b.Stock.Kerf+0.05*j.Depth {
		t.Errorf("%s: %s and %s stand %g apart along a slope of %.1f°, a cut takes %g", what, j.Pieces[last.Piece].Name(), j.Pieces[c.Piece].Name(), gap, l[1]*180/math.Pi, b.Stock.Kerf)
	}
}

// TestSetPools: ribs of two kinds that are alike saw their sticks as one piece.
func TestSetPools(t *testing.T) {
	r, doc := layOut(t, wren, "")
	set := rib.Set{{Name: "R1", Doc: doc, Rib: r}, {Name: "R2", Doc: doc, Rib: r}}
	b := cut.NewBars(set)
	if len(b.Jobs) != 1 || len(b.Jobs[0].Pieces) != 4+len(r.Sticks) {
		t.Fatalf("%d jobs, %d pieces; want one, four caps and each stick once", len(b.Jobs), len(b.Jobs[0].Pieces))
	}
	for _, p := range b.Jobs[0].Pieces[4:] {
		if p.Count != 2*r.Count || len(p.IDs) != 2 || !strings.HasPrefix(p.IDs[0], "R1 S") || p.IDs[1] != "R2"+p.IDs[0][2:] {
			t.Errorf("%v ×%d, want of both ribs, ×%d", p.IDs, p.Count, 2*r.Count)
		}
	}
	if p := b.Jobs[0].Pieces[4]; p.Name() != "R1 S1…" {
		t.Errorf("it is called %q", p.Name())
	}
}

// TestBarFindings: what is told of bars, and by which key.
func TestBarFindings(t *testing.T) {
	for _, c := range []struct{ name, bars, want, text string }{
		{wren, "", "", ""},
		{wren, "[[stock.bar]]\nlength = \"1200 mm\"\n", "warning cap-scarf stock.bar", "scarfed over 60 mm, 10 times their depth"},
		{starter, "[[stock.bar]]\nlength = \"1 m\"\n", "warning cap-scarf stock.bar", "2 1/2 in"},
		{wren, "[[stock.bar]]\nlength = \"150 mm\"\n", "warning cap-scarf stock.bar; warning cap-scarf-joint stock.bar; warning stock-bar-short stock.bar", "Name a bar of 198 mm"},
		{wren, "[[stock.bar]]\nlength = \"100 mm\"\n", "warning stock-bar-short stock.bar", "cap-upper"},
		{wren, "[[stock.bar]]\nlength = \"2 m\"\nof = \"caps\"\n", "note stock-bar-assumed stock.bar", "for the sticks: bars of 2400 mm"},
		{wren, "[[stock.bar]]\nlength = \"2 m\"\ncount = 9\n", "warning stock-short stock.bar", "of 494 pieces"},
		{wren, "[[stock.bar]]\nlength = \"2 m\"\ncount = 9\n[[stock.bar]]\nlength = \"1 m\"\n", "warning cap-scarf stock.bar", ""},
	} {
		_, doc, b := planned(t, c.name, c.bars)
		found := append(b.Find(doc), b.FindShort(doc)...)
		if got := codes(found); got != c.want {
			t.Errorf("%s, %s: got %q, want %q", c.name, c.bars, got, c.want)
		}
		if c.text != "" && !strings.Contains(fmt.Sprint(found), c.text) {
			t.Errorf("%s, %s: %v lacks %q", c.name, c.bars, found, c.text)
		}
		if short := codes(b.FindShort(doc)) != ""; short && !b.Counted() {
			t.Errorf("%s, %s: bars run short, and it was not thought possible", c.name, c.bars)
		}
	}
	r, doc := layOut(t, wren, "")
	r.Count = 10000
	b := cut.NewBars(rib.One(r, doc)).Planned()
	if got := codes(b.FindShort(doc)); got != "" || b.Jobs[0].Err != nil || slices.Max(b.Jobs[0].Missing()) != 0 {
		t.Errorf("190,000 pieces, sawn in lots: %q, %v", got, b.Jobs[0].Err)
	}
}

// TestBarsOfDoubledSticks: the strips of doubled sticks are sawn, each from bars of its own depth.
func TestBarsOfDoubledSticks(t *testing.T) {
	doc, _ := ribfile.Read("", []byte(`
units = "mm"
section = { naca = "2412" }
rib = { chord = 1200, count = 3 }
cap = { depth = 6, width = 10 }
nose = { block_to = "5%" }
stick = { depth = 3, width = 10, plies = 2 }
spar = [{ name = "front", at = "16%", width = 14 }, { name = "rear", at = "62%", width = 10 }]
bay = [{ from = "front", to = "rear", panels = 4 }]
`))
	sec, _ := rib.Section(doc, nil)
	r, _ := rib.Build(doc, sec)
	set := rib.One(r, doc)
	b := cut.NewBars(set).Planned()
	holdBars(t, "doubled sticks", set, b)
	n := 0
	for _, p := range b.Jobs[len(b.Jobs)-1].Pieces {
		n += p.Count
	}
	if len(b.Jobs) != 2 || b.Jobs[1].Depth != 3 || n != 2*3*len(r.Sticks) {
		t.Errorf("%d jobs, the last of %g mm with %d pieces; want 2, 3 mm, %d", len(b.Jobs), b.Jobs[len(b.Jobs)-1].Depth, n, 6*len(r.Sticks))
	}
}
