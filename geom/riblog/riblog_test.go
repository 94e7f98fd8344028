package riblog

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat"

	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// codes lists findings as "code line:column".
func codes(fs []finding.Finding) string {
	var out []string
	for _, f := range fs {
		out = append(out, fmt.Sprintf("%s %d:%d", f.Code, f.Line, f.Column))
	}
	return strings.Join(out, " ")
}

// short writes an entry with what it has.
func short(e Entry) string {
	out := fmt.Sprint(e.Line)
	for _, c := range columns {
		switch {
		case c.text != nil && *c.text(&e) != "":
			out += " " + c.name + "=" + *c.text(&e)
		case c.number != nil && c.number(&e).OK:
			out += fmt.Sprintf(" %s=%.4g", c.name, c.number(&e).V)
		}
	}
	return out
}

// TestRead reads what people and spreadsheets make of a log.
func TestRead(t *testing.T) {
	for _, c := range []struct{ name, text, want, found string }{
		{"as it is written", string(Header(ribfile.MM)) + "7,,2026-11-25,3,5.6,5.7,4,3.1,3.1,21,55,241.5,1250,85,A. B.,\"clean, dry\"\n",
			"2 rib=7 date=2026-11-25 batch=3 a=5.6 b=5.7 second batch=4 second a=3.1 second b=3.1 temperature=21 humidity=55 mass=241.5 coupon load=1250 wood failure=85 signed=A. B. note=clean, dry", ""},
		{"in inches", string(Header(ribfile.Inch)) + "7,,,3,0.2,0.2,,,,70,,8.5,286,,,\n", "2 rib=7 batch=3 a=5.67 b=5.67 temperature=21.11 mass=241 coupon load=1272", ""},
		{"semicolons and commas", "\ufeffRib;Mass (g);Batch;Part A [g]\r\n7;241,5;3;5,6\r\n", "2 rib=7 batch=3 a=5.6 mass=241.5", ""},
		{"tabs, another order, more columns", "mass\trib\tweather\n241.5\t7\tfine\n", "2 rib=7 mass=241.5", "log-column 1:10"},
		{"units in the cells", "rib,mass,a_g,temperature,coupon load\n7,8.5 oz,0.2oz,70 F,130 kg\n", "2 rib=7 a=5.67 temperature=21.11 mass=241 coupon load=1275", ""},
		{"blank lines, remarks, dashes", "rib,mass_g\n\n# weighed on the kitchen scale\n7,-\n,,\n8,–\n9,240\n", "4 rib=7 / 6 rib=8 / 7 rib=9 mass=240", ""},
		{"Windows-1252", "rib,note\n7,20 \xb0C\n", "2 rib=7 note=20 °C", ""},
		{"a note over two lines", "rib,note\n7,\"one\ntwo\"\n8,\n", "2 rib=7 note=one two / 4 rib=8", ""},
		{"percent", "batch,wood %,humidity\n3,85 %,55%\n", "2 batch=3 humidity=55 wood failure=85", ""},
		{"torn", "rib,mass_g\n7,240\n8,24", "2 rib=7 mass=240", "log-torn 3:1"},
		{"of nothing", "rib,batch,mass_g\n,,240\n", "2 mass=240", "log-nameless 2:1"},
		{"a remark in the note alone", "rib,note\n,rained all day\n", "2 note=rained all day", ""},
	} {
		l, found := Read("log.csv", []byte(c.text), ribfile.MM)
		var got []string
		for _, e := range l.Entries {
			got = append(got, short(e))
		}
		if s := strings.Join(got, " / "); s != c.want || codes(found) != c.found {
			t.Errorf("%s:\ngot  %s\nwant %s\n%v", c.name, s, c.want, found)
		}
	}
}

// TestBad tells every mistake with its place.
func TestBad(t *testing.T) {
	for _, c := range []struct{ name, text, found string }{
		{"empty", "", "log-head 1:1"},
		{"no line end at all", "rib,mass_g", "log-head 1:1 log-torn 1:1"},
		{"no headings", "7,240\n", "log-head 1:1"},
		{"two of a kind", "rib,mass_g,weight\n7,240,240\n", "log-doubled 1:12"},
		{"a wrong unit", "rib,mass_f\n7,240\n", "log-unit 1:5"},
		{"no number", "rib,mass_g\n7,24O\n8,x\n", "log-number 2:3 log-number 3:3"},
		{"no share", "batch,wood\n7,0x1p3\n8,nan\n9,120\n", "log-number 2:3 log-number 3:3 log-size 4:3"},
		{"a slip", "rib,mass_g,temperature_c\n7,24000000,21\n8,-3,200\n", "log-number 2:3 log-number 3:3 log-size 3:6"},
		{"decimal commas between commas", "rib,mass_g\n7,241,5\n", "log-columns 2:7"},
		{"not text", "rib\x00\n", "log-text 1:1"},
		{"long", "rib\n" + strings.Repeat("7", 60) + "\n", "log-size 2:1"},
		{"control characters", "rib\n7\x07\n", "log-text 2:1"},
		{"many", "rib\n" + strings.Repeat("7\n", mostLines+1), "log-many 5002:1"},
	} {
		_, found := Read("log.csv", []byte(c.text), ribfile.MM)
		if codes(found) != c.found {
			t.Errorf("%s: got %q, want %q\n%v", c.name, codes(found), c.found, found)
		}
		for _, f := range found {
			if f.Message == "" || f.Fix == "" {
				t.Errorf("%s: %+v", c.name, f)
			}
		}
	}
}

func plan() Plan {
	return Plan{Kinds: []Kind{{Count: 10, MassG: 240, SidesG: [2]float64{11, 6}}}, RatioA: 1, RatioB: 1, RatioTolerance: 0.02, CouponG: 0.1, CouponN: 1200, WoodPct: 75}
}

func sum(t *testing.T, p Plan, text string) Summary {
	t.Helper()
	l, found := Read("log.csv", []byte(text), ribfile.MM)
	if finding.HasError(found) {
		t.Fatal(found)
	}
	return Sum(l, p)
}

// TestSum joins lines about one rib and one batch, and counts by hand.
func TestSum(t *testing.T) {
	s := sum(t, plan(), "rib,batch,a,b,second_batch,second_a,second_b,mass,coupon_load,wood_failure\n"+
		"1,B1,11,11,,,,,,\n"+ // the first sides of two ribs from one cup
		"2,b1,,,,,,,,\n"+
		"1,,,,B2,6.0,6.1,,,\n"+
		"2,,,,B2,,,,,\n"+
		"no 3,B03,5.5,5.5,,,,,,\n"+
		"1,,,,,,,241,,\n"+
		",B1,,,,,,,1250,90\n"+
		",,,,B2,,,,1250,80\n")
	if got := codes(s.Found); got != "log-coupon 6:1" {
		t.Errorf("found %q: %v", got, s.Found)
	}
	first, second, weighed := s.Glued(0)
	if first != 3 || second != 2 || weighed != 1 || len(s.Ribs) != 3 || len(s.Batches) != 3 || s.Batches[0].Sides != 2 || s.Batches[1].Sides != 2 {
		t.Errorf("%d, %d, %d; %+v", first, second, weighed, s)
	}
	u := s.Adhesive()
	// Three first sides of 11 g, two second ones of 6 g, three sample joints; left are 7 first and 8 second sides.
	want := Used{AG: 22.5, BG: 22.6, PlanG: 45.3, Sides: 5, WholeG: 170, RemainderG: 125}
	for _, p := range [][2]float64{{u.AG, want.AG}, {u.BG, want.BG}, {u.PlanG, want.PlanG}, {u.WholeG, want.WholeG}, {u.RemainderG, want.RemainderG}} {
		if math.Abs(p[0]-p[1]) > 1e-9 {
			t.Errorf("got %+v, want %+v", u, want)
		}
	}
	if u.Sides != want.Sides || u.Unweighed != 0 {
		t.Errorf("got %+v", u)
	}
}

// TestFound tells what is wrong in a log, each with its place.
func TestFound(t *testing.T) {
	const head = "rib,batch,a,b,second_batch,second_a,second_b,mass,coupon_load,wood_failure\n"
	for _, c := range []struct{ name, text, found string }{
		{"a mass twice", "1,,,,,,,240,,\n1,,,,,,,241,,\n", "log-again 3:9"},
		{"the same mass twice", "1,,,,,,,240,,\n1,,,,,,,240,,\n", ""},
		{"another batch", "1,1,5,5,,,,,1200,90\n1,2,5,5,,,,,1200,90\n", "log-again 3:1"},
		{"a cup twice", "1,1,5,5,,,,,1200,90\n2,1,6,6,,,,,,\n", "log-again 3:5 log-again 3:7"},
		{"a second coupon", "1,1,5,5,,,,,1200,40\n,1,,,,,,,1200,90\n", "log-again 3:15"},
		{"no batch", "1,,5,5,,,,,,\n", "log-coupon 2:1 log-no-batch 2:1"},
		{"whose coupon", "1,1,5,5,2,3,3,,1200,90\n", "log-coupon 2:1 log-whose-coupon 2:1"},
		{"one batch for both sides", "1,1,5,5,1,,,,1200,90\n", ""},
		{"ratio", "1,1,5,5.2,,,,,1200,90\n", "log-ratio 2:5"},
		{"ratio within", "1,1,5,5.1,,,,,1200,90\n", ""},
		{"no B", "1,1,5,0,,,,,1200,90\n", "log-ratio 2:5"},
		{"load alone", "1,1,5,5,,,,,1300,\n", "log-coupon 2:1"},
		{"failed", "1,1,5,5,,,,,1300,70\n", "log-coupon-failed 2:18"},
		{"early", "1,1,5,5,,,,,900,90\n", "log-coupon-load 2:13"},
		{"one more than planned", strings.Repeat("x,,,,,,,,,\n", 1) + func() (s string) {
			for i := range 10 {
				s += fmt.Sprintf("%d,,,,,,,,,\n", i)
			}
			return s
		}(), "log-more 12:1"},
	} {
		s := sum(t, plan(), head+c.text)
		if codes(s.Found) != c.found {
			t.Errorf("%s: got %q, want %q\n%v", c.name, codes(s.Found), c.found, s.Found)
		}
	}
}

// TestKinds finds a rib's kind by its column or its name, and by the numbers and other names of the kind's ribs.
func TestKinds(t *testing.T) {
	p := plan()
	p.Kinds = []Kind{{"R1", []string{"R3", "R9", "strut"}, 4, 260, [2]float64{12, 6}}, {"R2", []string{"R4"}, 2, 200, [2]float64{10, 5}}}
	s := sum(t, p, "rib,kind,mass_g\n1,R1,265\nR1 right,,262\nr2,,201\n4,R7,200\nR3 left,,260\nStrut right,,261\n5,r4,201\n")
	var got []int
	for _, r := range s.Ribs {
		got = append(got, r.Kind)
	}
	if !slices.Equal(got, []int{0, 0, 1, -1, 0, 0, 1}) || codes(s.Found) != "log-kind 5:1" || s.All[0].N != 4 || s.All[1].Mean != 201 {
		t.Errorf("kinds %v, %v, %+v", got, s.Found, s.All)
	}
}

// TestSpread holds mean, standard deviation and median against gonum's, and the scores against their definition in
// NIST/SEMATECH, e-Handbook of Statistical Methods, 1.3.5.17, by hand.
func TestSpread(t *testing.T) {
	for n := 2; n < 40; n++ {
		x := make([]float64, n)
		for i := range x {
			x[i] = 240 + 3*math.Sin(float64(7*i*i))
		}
		s := SpreadOf(x)
		mean, sd := stat.MeanStdDev(x, nil)
		y := slices.Clone(x)
		slices.Sort(y)
		mid := (stat.Quantile(0.5, stat.Empirical, y, nil) + y[n/2]) / 2
		if n%2 == 1 {
			mid = y[n/2]
		}
		if math.Abs(s.Mean-mean) > 1e-9 || math.Abs(s.SD-sd) > 1e-9 || math.Abs(s.Median-mid) > 1e-9 || s.Least != y[0] || s.Most != y[n-1] || s.N != n {
			t.Errorf("%d: got %+v, want %g, %g, %g", n, s, mean, sd, mid)
		}
	}
	if (SpreadOf(nil) != Spread{}) || SpreadOf([]float64{5}).SD != 0 {
		t.Error("of nothing")
	}
	for _, c := range []struct{ x, want []float64 }{
		{[]float64{2, 4, 4, 5, 6, 7, 30}, []float64{-2.0235, -0.6745, -0.6745, 0, 0.6745, 1.349, 16.8625}}, // distances 3 1 1 0 1 2 25: MAD 1
		{[]float64{5, 5, 5, 5, 5, 5, 12}, []float64{0, 0, 0, 0, 0, 0, 5.5852}},                             // MAD 0, mean distance 1: 7/1.253314
		{[]float64{3, 3, 3}, []float64{0, 0, 0}},
		{nil, nil},
	} {
		got := Scores(c.x)
		for i := range c.want {
			if math.Abs(got[i]-c.want[i]) > 1e-4 {
				t.Errorf("%v: got %v, want %v", c.x, got, c.want)
				break
			}
		}
	}
}

// TestOdd calls a rib odd that weighs far more, none for a gram, and none among few.
func TestOdd(t *testing.T) {
	for _, c := range []struct {
		masses string
		odd    string
	}{
		{"240 241 239 242 240 238 262 241", "7"},
		{"240 240 240 240 240 240 241 240", ""},
		{"240 240 240 240 240 240 250 240", "7"},
		{"240 241 280 239 240", ""},
		{"220 221 219 280 220 222 150 221", "4 7"},
	} {
		text := "rib,mass_g\n"
		for i, m := range strings.Fields(c.masses) {
			text += fmt.Sprintf("%d,%s\n", i+1, m)
		}
		s := sum(t, plan(), text)
		var odd []string
		for _, r := range s.Ribs {
			if r.Odd {
				odd = append(odd, r.Name)
			}
		}
		if got := strings.Join(odd, " "); got != c.odd {
			t.Errorf("%s: got %q, want %q", c.masses, got, c.odd)
		}
		if s.All[0].N-s.Masses[0].N != len(odd) {
			t.Errorf("%s: %+v and %+v", c.masses, s.All, s.Masses)
		}
	}
}

// FuzzRead holds that no log makes the reader stumble, that what is read can be, and that a line can be added to any log
// that is read, and stands there as it was meant.
func FuzzRead(f *testing.F) {
	for _, s := range []string{string(Header(ribfile.MM)) + "7,,,3,5.6,5.7,,,,21,55,241.5,1250,85,,\n", "rib;mass\r\n7;241,5\r\n", "rib,note\n7,\"a\nb\"\n8,\"c", "mass_oz\tbatch\n8\t1\r", "# x\nrib\n#7\n\"", "batch,wood %\n1,5"} {
		f.Add([]byte(s), "8", "a; \"b\", c")
	}
	f.Fuzz(func(t *testing.T, data []byte, rib, note string) {
		l, found := Read("log.csv", data, ribfile.MM)
		for _, g := range found {
			if g.Line < 1 || g.Column < 1 || g.Code == "" || g.Fix == "" {
				t.Fatalf("finding without place or remedy: %+v", g)
			}
		}
		for _, e := range l.Entries {
			for _, c := range columns {
				if c.number != nil && !(c.number(&e).V >= c.least-1e-9 && c.number(&e).V <= c.most+1e-9) && c.number(&e).OK {
					t.Fatalf("%s is %v", c.name, c.number(&e))
				}
			}
		}
		Sum(l, plan())
		whole, _ := Tail(data)
		line, found := Append("log.csv", whole, map[string]string{"rib": rib, "note": note}, ribfile.MM)
		if finding.HasError(found) {
			return
		}
		if line.Bytes[len(line.Bytes)-1] != '\n' {
			t.Fatalf("no line end in %q", line.Bytes)
		}
		before, _ := Read("log.csv", whole, ribfile.MM)
		after, _ := Read("log.csv", append(slices.Clone(whole), line.Bytes...), ribfile.MM)
		n := len(before.Entries)
		if len(after.Entries) != n+1 || after.Entries[n].Rib != strings.Join(strings.Fields(strings.TrimLeft(strings.TrimSpace(rib), "#")), " ") {
			t.Fatalf("added %q, got %+v", line.Bytes, after.Entries[n:])
		}
	})
}
