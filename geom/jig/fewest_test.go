package jig

import (
	"math"
	"slices"
	"testing"

	"ribwright/geom"
)

// TestNoneToSpare takes every block out of every plan, one at a time: the rules must break each time. Of a block that
// stands at sticks alone the proof is that linear programs find the play of one of them too large.
func TestNoneToSpare(t *testing.T) {
	for _, one := range append(demos(t), randoms(t, 50)...) {
		p := newPlanner(one.r, one.doc)
		p.plan()
		all := slices.Clone(p.blocks)
		for i, b := range all {
			p.blocks = slices.Delete(slices.Clone(all), i, i+1)
			if p.stillGood(b) {
				t.Errorf("%s: the block at %v, which holds %v, can be missed", one.name, b.At, b.Members())
			}
			if b.face == &p.outer || b.face == &p.inner {
				continue
			}
			worst := 0.0
			for k := range p.members {
				m := &p.members[k]
				if !slices.Contains(b.Members(), m.id) {
					continue
				}
				var contacts []rest
				for _, c := range p.contactsOf(*m) {
					contacts = append(contacts, rest{at: c.At, normal: c.Normal, tight: c.Tight})
				}
				worst = math.Max(worst, playByLP(m.ends, contacts))
			}
			if worst <= PlayLimit {
				t.Errorf("%s: without the block at %v the play is %g clearances, want more than %d", one.name, b.At, worst, PlayLimit)
			}
		}
	}
}

// TestFewestOnAStick tries every arrangement of one block less than the plan's along every stick's edges, in steps of a fifth of a
// block's length, and at the ends of each free stretch: none may hold it.
func TestFewestOnAStick(t *testing.T) {
	sticks := 0
	for _, one := range demos(t) {
		p := newPlanner(one.r, one.doc)
		p.plan()
		all := slices.Clone(p.blocks)
		for k := range p.members {
			m := &p.members[k]
			if len(m.faces) == 0 || k < 2 || m.covered {
				continue
			}
			// Its own blocks are taken out; those that hold another member stay.
			p.blocks = slices.DeleteFunc(slices.Clone(all), func(b Block) bool { return slices.Equal(b.Members(), []string{m.id}) })
			p.room.hold(p.blocks)
			n := len(all) - len(p.blocks)
			if n == 0 {
				continue
			}
			sticks++
			if n == 1 {
				if play, ok := p.play(m); ok && play <= PlayLimit {
					t.Errorf("%s: %s is held without a block of its own", one.name, m.id)
				}
				continue
			}
			var places []Block
			for i := range m.faces {
				f := &m.faces[i]
				for _, s := range p.stretches(f, p.sizes()[0]) {
					for at := s[0]; at < s[1]; at += one.doc.Jig.BlockLength / 5 {
						if b, ok := p.try(f, at, p.sizes()[0]); ok {
							b.Contacts = p.room.contacts(&b)
							places = append(places, b)
						}
					}
					if b, ok := p.try(f, s[1], p.sizes()[0]); ok {
						b.Contacts = p.room.contacts(&b)
						places = append(places, b)
					}
				}
			}
			if best := p.fewest(m, places, p.contactsOf(*m), n-1); best != nil {
				t.Errorf("%s: %s has %d blocks, and %d hold it: %v", one.name, m.id, n, n-1, places[best[0]].At)
			}
		}
	}
	if sticks < 20 {
		t.Errorf("only %d sticks were tried", sticks)
	}
}

// TestPlayByHand holds Play against sums by hand: a bar of length 100 along x.
func TestPlayByHand(t *testing.T) {
	ends := [2]geom.Pt{{}, {X: 100}}
	up, down := geom.Pt{Y: 1}, geom.Pt{Y: -1}
	stops := []Contact{{At: geom.Pt{}, Normal: geom.Pt{X: 1}}, {At: geom.Pt{X: 100}, Normal: geom.Pt{X: -1}}}
	at := func(x float64, n geom.Pt) Contact { return Contact{At: geom.Pt{X: x}, Normal: n} }
	for _, c := range []struct {
		name string
		side []Contact
		want float64 // 0: not held
	}{
		{"nothing at its sides", nil, 0},
		{"one pair: it turns about it", []Contact{at(50, up), at(50, down)}, 0},
		{"two on one side", []Contact{at(20, up), at(80, up)}, 0},
		// up at 0 and 100 by 1, so its ends move by 1
		{"pairs at its ends", []Contact{at(0, up), at(0, down), at(100, up), at(100, down)}, 1},
		// y(50 ± d) = ±1 at d = 10: the ends move by 50/10
		{"pairs 20 apart", []Contact{at(40, up), at(40, down), at(60, up), at(60, down)}, 5},
		// below at 20 and 80, above at 50: y(20) = −1, y(50) = 1 is a rise of 2 in 30, so y(100) = 1 + 50·2/30
		{"three, as on a bench", []Contact{at(20, up), at(80, up), at(50, down)}, 1 + 50*2.0/30},
	} {
		got, ok := Play(ends, append(slices.Clone(stops), c.side...))
		if !ok {
			got = 0
		}
		if math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: got a play of %g clearances, want %g", c.name, got, c.want)
		}
	}
}

// TestPlayIsTheLinearProgram holds Play against gonum's simplex over the contacts of every member.
func TestPlayIsTheLinearProgram(t *testing.T) {
	for _, one := range append(demos(t), randoms(t, 10)...) {
		p := newPlanner(one.r, one.doc)
		p.plan()
		for _, m := range p.members {
			var contacts []rest
			for _, c := range p.contactsOf(m) {
				contacts = append(contacts, rest{at: c.At, normal: c.Normal, tight: c.Tight})
			}
			got, ok := Play(m.ends, p.contactsOf(m))
			if !ok {
				got = math.Inf(1)
			}
			if least, good := p.play(&m); good != ok || ok && least != got && max(least, got) > PlayLimit {
				t.Errorf("%s: %s: got a play of %g, %v, want %g, %v, or both within the limit", one.name, m.id, least, good, got, ok)
			}
			if len(contacts) < 3 {
				continue
			}
			if want := playByLP(m.ends, contacts); got != want && math.Abs(got-want) > 1e-6*(1+want) {
				t.Errorf("%s: %s: got a play of %g, want %g", one.name, m.id, got, want)
			}
		}
	}
}

// TestPlayWithin takes the contacts of a member in half at once and half afterwards.
func TestPlayWithin(t *testing.T) {
	for _, one := range append(demos(t), randoms(t, 10)...) {
		p := newPlanner(one.r, one.doc)
		p.plan()
		for _, m := range p.members {
			all := p.contactsOf(m)
			g := newGrip(m.ends, all[:len(all)/2], exact)
			h := g.with(all[len(all)/2:], m.id)
			want, ok := h.play()
			for _, most := range []float64{math.Inf(1), want, want / 2} {
				got, good := g.within(all[len(all)/2:], m.id, most)
				if good != (ok && want <= most) || good && got != want {
					t.Errorf("%s: %s: got a play of %g, %v, within %g; want %g, %v", one.name, m.id, got, good, most, want, ok)
				}
			}
		}
	}
}
