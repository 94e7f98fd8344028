package session_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/session"
)

// docOf reads a rib file with these tables.
func docOf(t testing.TB, tables string) *ribfile.Doc {
	t.Helper()
	doc, fs := ribfile.Read("rib.toml", []byte("units = \"mm\"\nsection = { naca = \"0015\" }\nrib = { chord = 1200 }\n"+tables))
	if len(fs) > 0 {
		t.Fatal(fs)
	}
	return doc
}

// setOf is a set of kinds of rib, so many of each; those with a count below 0 have plates on one face only.
func setOf(doc *ribfile.Doc, counts ...int) rib.Set {
	var out rib.Set
	for i, n := range counts {
		r := &rib.Rib{Count: max(n, -n), Gussets: []rib.Gusset{{Faces: 2}}}
		if n < 0 {
			r.Gussets[0].Faces = 1
		}
		out = append(out, rib.Entry{Name: fmt.Sprintf("R%d", i+1), Doc: doc, Rib: r})
	}
	return out
}

// fault says what a plan does wrong; empty: nothing.
func fault(set rib.Set, p session.Plan) string {
	done := map[session.Side]int{}
	for i, s := range p.Sessions {
		minutes, firsts := 0.0, 0
		for _, side := range s.Sides {
			if done[side] > 0 {
				return fmt.Sprintf("%+v in two sessions", side)
			}
			done[side] = i + 1
			minutes += p.FaceMin[side.Face]
			if side.Face == 0 {
				firsts++
				continue
			}
			switch first := done[session.Side{Entry: side.Entry, Rib: side.Rib}]; {
			case first == 0:
				return fmt.Sprintf("%+v before its first side", side)
			case p.Waits() && first == i+1:
				return fmt.Sprintf("%+v before its first side has cured", side)
			}
		}
		switch {
		case math.Abs(minutes-s.WorkMin) > 1e-9 || minutes > p.Spec.Time+1e-6:
			return fmt.Sprintf("session %d works %g min, says %g", i+1, minutes, s.WorkMin)
		case p.Waits() && firsts > p.Spec.Jigs:
			return fmt.Sprintf("session %d needs %d jigs", i+1, firsts)
		case len(s.Sides) == 0 || s.Number != i+1:
			return fmt.Sprintf("session %d is empty or numbered %d", i+1, s.Number)
		}
	}
	want := 0
	for _, e := range set {
		want += e.Rib.Count
		if e.Rib.Gussets[0].Faces > 1 {
			want += e.Rib.Count
		}
	}
	if len(done) != want {
		return fmt.Sprintf("%d sides done, want %d", len(done), want)
	}
	return ""
}

// fewest is the least number of sessions, by trying everything: any count of first and second sides in any session.
func fewest(p session.Plan, ready []int) int {
	type state struct{ f, s int }
	now := map[state]bool{{0, 0}: true}
	n := len(ready) - 1
	for k := 0; ; k++ {
		if now[state{n, ready[n]}] {
			return k
		}
		next := map[state]bool{}
		for a := range now {
			for x := 0; a.f+x <= n && (!p.Waits() || x <= p.Spec.Jigs); x++ {
				may := ready[a.f+x]
				if p.Waits() {
					may = ready[a.f]
				}
				for y := 0; a.s+y <= may; y++ {
					if float64(x)*p.FaceMin[0]+float64(y)*p.FaceMin[1] <= p.Spec.Time+1e-6 {
						next[state{a.f + x, a.s + y}] = true
					}
				}
			}
		}
		now = next
	}
}

// TestFewest holds on many small sets that every side of every rib is in just one session, none before it may, none longer than
// the session, and that no other plan has fewer sessions.
func TestFewest(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 5))
	for range 1500 {
		pace, lay := 1+rnd.IntN(20), rnd.IntN(20)
		inJig := []string{"remove", "cure"}[rnd.IntN(2)]
		doc := docOf(t, fmt.Sprintf("[batch]\npace = %d\n[session]\ntime = %d\nlay = %d\nin_jig = %q\njigs = %d\n", pace, max(10, pace+lay+rnd.IntN(100)), lay, inJig, 1+rnd.IntN(4)))
		counts := []int{rnd.IntN(9) + 1, rnd.IntN(9) - 4}
		set := setOf(doc, counts...)
		p := session.Of(set)
		if bad := fault(set, p); bad != "" {
			t.Fatalf("%v, %+v: %s\n%+v", counts, p.Spec, bad, p.Sessions)
		}
		ready := []int{0}
		for _, e := range set {
			for range e.Rib.Count {
				last := ready[len(ready)-1]
				if e.Rib.Gussets[0].Faces > 1 {
					last++
				}
				ready = append(ready, last)
			}
		}
		if want := fewest(p, ready); len(p.Sessions) != want {
			t.Fatalf("%v, %+v, a side %g and %g min: %d sessions, want %d", counts, p.Spec, p.FaceMin[0], p.FaceMin[1], len(p.Sessions), want)
		}
	}
}

// TestWords holds plans worked out by hand. About half an hour a rib, both sides, is common practice (no source).
func TestWords(t *testing.T) {
	for _, c := range []struct{ keys, want string }{
		{"time = \"1 h 30 min\"\nin_jig = \"remove\"", "26 ribs, 9 sessions of 3 ribs"},
		{"time = \"2 h\"\nin_jig = \"remove\"\nlay = 10", "26 ribs, 9 sessions of 3 ribs"},
		{"time = \"2 h\"\nin_jig = \"remove\"", "26 ribs, 7 sessions of 3 to 4 ribs"},
		{"time = \"2 h\"\nin_jig = \"cure\"", "26 ribs, 27 sessions of 1 rib, second sides in the session after"},
		{"time = \"2 h\"\njigs = 2", "26 ribs, 14 sessions of 2 ribs, second sides in the session after"},
		{"time = \"10 min\"", ""},
		{"lay = 10", ""},
	} {
		p := session.Of(setOf(docOf(t, "[batch]\npace = 15\n[session]\n"+c.keys+"\n"), 26))
		if got := p.Words(); got != c.want {
			t.Errorf("%q: %q, want %q", c.keys, got, c.want)
		}
	}
}

// TestFindings holds what is told of sessions, and when.
func TestFindings(t *testing.T) {
	for _, c := range []struct{ tables, want string }{
		{"[session]\ntime = 10\n", "warning session-short"},
		{"[session]\ntime = 20\n", ""},
		{"[session]\ntime = 20\nin_jig = \"remove\"\n[fastener]\nkind = \"staple\"\n", "note session-half"},
		{"[session]\nin_jig = \"remove\"\n", "warning session-unheld"},
		{"[session]\ntime = 30\n[fastener]\nkind = \"nail\"\n", ""},
		{"", ""},
	} {
		doc := docOf(t, c.tables)
		got := ""
		for _, f := range session.Of(setOf(doc, 3)).Findings(doc) {
			got += f.Severity.String() + " " + f.Code
			if f.Message == "" || f.Fix == "" || f.Key == "" {
				t.Errorf("%+v", f)
			}
		}
		if got != c.want {
			t.Errorf("%q: got %q, want %q", c.tables, got, c.want)
		}
	}
}

// TestUnheld: ribs that come out of the jig unheld are named where others are held.
func TestUnheld(t *testing.T) {
	held, bare := docOf(t, "[session]\nin_jig = \"remove\"\n[fastener]\nkind = \"staple\"\n"), docOf(t, "[session]\nin_jig = \"remove\"\n")
	set := append(setOf(held, 3, 2), setOf(bare, 1)...)
	set[2].Name = "R7"
	if fs := session.Of(set).Findings(held); len(fs) != 1 || fs[0].Code != "session-unheld" || !strings.Contains(fs[0].Message, "hold the plates of R7") {
		t.Errorf("%+v", fs)
	}
	if fs := session.Of(set[:2]).Findings(held); len(fs) != 0 {
		t.Errorf("all are held: %+v", fs)
	}
	set[2].Doc = docOf(t, "") // its own default: it waits in the jig
	if fs := session.Of(set).Findings(held); len(fs) != 0 {
		t.Errorf("R7 waits: %+v", fs)
	}
	for _, e := range set {
		e.Doc.Session.Time = 60
	}
	for _, s := range session.Of(set).Sessions {
		first := slices.Contains(s.Sides, session.Side{Entry: 2, Rib: 1})
		if first && slices.Contains(s.Sides, session.Side{Entry: 2, Rib: 1, Face: 1}) {
			t.Errorf("both sides of R7 in session %d", s.Number)
		}
	}
}

// TestBareSides: a right rib whose plates lie on its far face waits in the jig although staples hold the others: its second side
// follows in a later session, and so does what wants its jig. No plan that takes the sides in this order has fewer sessions.
func TestBareSides(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 3))
	for range 300 {
		jigs := 1 + r.IntN(3)
		doc := docOf(t, fmt.Sprintf("[batch]\npace = 15\n[session]\ntime = %d\nin_jig = \"remove\"\njigs = %d\n[fastener]\nkind = \"staple\"\n", 15+15*r.IntN(6), jigs))
		var set rib.Set
		var bare []bool
		for k := range 1 + r.IntN(3) {
			one := &rib.Rib{Count: 1 + r.IntN(4), Gussets: []rib.Gusset{{Faces: 1 + r.IntN(2)}}}
			one.Mirrored = r.IntN(one.Count + 1)
			set = append(set, rib.Entry{Name: fmt.Sprintf("R%d", k+1), Doc: doc, Rib: one})
			for n := range one.Count {
				bare = append(bare, one.Gussets[0].Faces == 1 && one.Right(n+1))
			}
		}
		p := session.Of(set)
		begun, f := map[session.Side]int{}, 0
		for _, s := range p.Sessions {
			waiting := 0
			for _, side := range s.Sides {
				one := set[side.Entry].Rib
				isBare := one.Gussets[0].Faces == 1 && one.Right(side.Rib)
				if side.Face == 1 {
					if first := begun[session.Side{Entry: side.Entry, Rib: side.Rib}]; first == 0 || isBare && first == s.Number {
						t.Fatalf("%+v in session %d, its first side in %d", side, s.Number, first)
					}
					continue
				}
				begun[side] = s.Number
				if waiting >= jigs {
					t.Fatalf("session %d: %+v finds no jig", s.Number, side)
				}
				if isBare != bare[f] {
					t.Fatalf("%+v is out of order", side)
				}
				if f++; isBare {
					waiting++
				}
			}
		}
		if want := fewestInOrder(p, set, bare, jigs); f != len(bare) || len(p.Sessions) != want {
			t.Fatalf("%d of %d ribs in %d sessions, want %d", f, len(bare), len(p.Sessions), want)
		}
	}
}

// fewestInOrder is the least number of sessions by trying every count of first and second sides, both in the order of the ribs.
func fewestInOrder(p session.Plan, set rib.Set, bare []bool, jigs int) int {
	var second []int // the rib of each second side
	k := 0
	for _, e := range set {
		for range e.Rib.Count {
			if e.Rib.Gussets[0].Faces == 2 || bare[k] {
				second = append(second, k)
			}
			k++
		}
	}
	type state struct{ f, s int }
	now := map[state]bool{{}: true}
	for n := 0; ; n++ {
		if now[state{len(bare), len(second)}] {
			return n
		}
		next := map[state]bool{}
		for a := range now {
			for x, waiting := 0, 0; a.f+x <= len(bare) && waiting <= jigs; x++ {
				for y := 0; a.s+y <= len(second) && float64(x)*p.FaceMin[0]+float64(y)*p.FaceMin[1] <= p.Spec.Time+1e-6; y++ {
					next[state{a.f + x, a.s + y}] = true
					if i := a.s + y; i == len(second) || second[i] >= a.f+x || bare[second[i]] && second[i] >= a.f {
						break
					}
				}
				if waiting == jigs || a.f+x == len(bare) {
					break
				}
				if bare[a.f+x] {
					waiting++
				}
			}
		}
		now = next
	}
}

func TestNames(t *testing.T) {
	set := setOf(docOf(t, "[session]\ntime = 45\njigs = 2\n"), 3, 2)
	p := session.Of(set)
	got := ""
	for _, s := range p.Sessions {
		got += session.Names(set, s.Sides) + "\n"
	}
	const want = "R1 1–2\nR1 3 (side 1), R1 1–2 (side 2)\nR2 1–2 (side 1), R1 3 (side 2)\nR2 1–2\n"
	if got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
	if r := p.Report(set); r[1].First != "R1 3" || r[1].Second != "R1 1–2" || r[1].Sides != 3 || r[1].WorkMin != 45 {
		t.Errorf("%+v", r[1])
	}
}

// BenchmarkOf plans as many ribs as a file may have.
func BenchmarkOf(b *testing.B) {
	set := setOf(docOf(b, "[session]\ntime = \"8 h\"\nin_jig = \"remove\"\nlay = 10\n"), 10000)
	for b.Loop() {
		session.Of(set)
	}
}

// TestWebSides: a web on the far face is glued on with the second side, though no plate is there.
func TestWebSides(t *testing.T) {
	set := setOf(docOf(t, "[session]\ntime = \"3 h\"\n"), 2, -3)
	set[1].Rib.Web = rib.Web{Near: true, Far: true}
	seconds := 0
	for _, s := range session.Of(set).Sessions {
		seconds += len(s.On(1))
	}
	if seconds != 5 {
		t.Errorf("%d second sides, want 5", seconds)
	}
}
