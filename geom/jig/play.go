package jig

import (
	"cmp"
	"math"
	"slices"

	"ribwright/geom"
)

// Play returns how far either end of a member can move in any direction, in clearances, where every contact that is not tight gives way by one
// clearance. It is not ok where the contacts do not hold the member at all.
//
// A small motion is (vx, vy, ω); a contact at p with the normal n allows those with n·(v + ω × p) ≥ −1, or 0 where it is tight. The furthest that a point
// q moves toward a direction g is the greatest value of g·(v + ω × q) under these: a linear program, whose dual
// is to balance the force g at q by pushes λ ≥ 0 of the contacts against the member with the least sum of those λ that are not tight. By Farkas' lemma
// there is such a balance for every g just where no motion is free. The least sum is taken by three contacts at most
// (Carathéodory), so trying all threes is exact.
func Play(ends [2]geom.Pt, contacts []Contact) (float64, bool) {
	g := newGrip(ends, contacts, exact)
	return g.play()
}

// exact asks a grip for the play to the last place.
const exact = -1

// grip is what contacts do to hold a member. They are added one by one, and each tries only the threes that it is one of, and those only
// for the loads that it can bear better.
type grip struct {
	centre geom.Pt
	half   float64 // of the member's length
	enough float64 // a load that takes no more than this to balance is not looked at further
	pushes []push
	loads  [8]load // either way along the member and across it, at either end
}

// push is what a contact can do: a force and its moment, and by how much it gives way.
type push struct {
	wrench [3]float64
	gap    float64
}

// load is a force on the member's end, and the least that balances it.
type load struct {
	wrench [3]float64
	sum    float64 // of the pushes that balance it; +Inf: none do
	// motion is how far these pushes let the member move under the load. Where all other contacts allow it, it proves that the sum is
	// the least, and a further contact that allows it, too, does not lessen it.
	motion [3]float64
	proved bool
}

// newGrip returns the grip of a member's contacts. Where its play is not more than enough, it may be less than said.
func newGrip(ends [2]geom.Pt, contacts []Contact, enough float64) grip {
	c, half := ends[0].Lerp(ends[1], 0.5), math.Max(ends[0].Dist(ends[1])/2, 1)
	g := grip{centre: c, half: half, enough: enough, pushes: make([]push, 0, len(contacts)+4*mostBlocks)}
	axis := ends[1].Sub(ends[0]).Unit()
	for i, to := range [4]geom.Pt{axis, axis.Mul(-1), axis.Left(), axis.Left().Mul(-1)} {
		for e := range ends {
			g.loads[2*i+e] = load{wrench: wrench(ends[e].Sub(c), to, half), sum: math.Inf(1)}
		}
	}
	all := make([]push, len(contacts))
	for i, c := range contacts {
		all[i] = g.push(c)
	}
	// Those with most leverage are most likely to be what holds the member: once they are there, most others are passed over.
	slices.SortStableFunc(all, func(p, q push) int { return cmp.Compare(math.Abs(q.wrench[2]), math.Abs(p.wrench[2])) })
	for _, p := range all {
		g.add(p)
	}
	return g
}

// play is how far the member's ends can move, see Play.
func (g *grip) play() (float64, bool) {
	most := 0.0
	for i := range g.loads {
		most = max(most, g.loads[i].sum)
	}
	return most, !math.IsInf(most, 1)
}

// with returns the grip with the contacts that a member has besides. What was added to the same grip before may be overwritten.
func (g grip) with(contacts []Contact, member string) grip {
	for _, c := range contacts {
		if c.Member == member {
			g.add(g.push(c))
		}
	}
	return g
}

// within returns the play with the contacts that a member has besides; it is not ok where that is more than most. It overwrites like with.
func (g grip) within(contacts []Contact, member string, most float64) (float64, bool) {
	was := len(g.pushes)
	for _, c := range contacts {
		if c.Member == member {
			g.pushes = append(g.pushes, g.push(c))
		}
	}
	for x := range g.loads {
		for i := was; i < len(g.pushes); i++ {
			g.take([]int{x}, i)
		}
		if g.loads[x].sum > most {
			return 0, false
		}
	}
	return g.play()
}

func (g *grip) push(c Contact) push {
	p := push{wrench(c.At.Sub(g.centre), c.Normal, g.half), 1}
	if c.Tight {
		p.gap = 0
	}
	return p
}

func (g *grip) add(p push) {
	g.pushes = append(g.pushes, p)
	g.take([]int{0, 1, 2, 3, 4, 5, 6, 7}, len(g.pushes)-1)
}

// take lets some of the loads rest on the push n besides those before it.
func (g *grip) take(loads []int, n int) {
	p := &g.pushes[n]
	open := make([]int, 0, len(g.loads))
	for _, x := range loads {
		if l := &g.loads[x]; l.sum > g.enough && (!l.proved || !p.allows(&l.motion)) {
			open = append(open, x)
		}
	}
	if len(open) == 0 {
		return
	}
	for j := range n {
		g.balance(open, p, j)
	}
	for _, x := range open {
		l := &g.loads[x]
		l.proved = !math.IsInf(l.sum, 1) && l.allowed(g.pushes[:n+1])
	}
}

// allowed reports whether contacts allow the load's motion.
func (l *load) allowed(by []push) bool {
	for i := range by {
		if !by[i].allows(&l.motion) {
			return false
		}
	}
	return true
}

// allows reports whether a contact allows a motion.
func (p *push) allows(motion *[3]float64) bool { return dot(&p.wrench, motion)+p.gap > -hair }

// balance balances loads by a push, the push n and one of those before it, where that takes less than what is known.
//
// −load = λi·wi + λj·wj + λk·wk by Cramer's rule: the contacts push back.
func (g *grip) balance(loads []int, i *push, n int) {
	j := &g.pushes[n]
	ij := cross(&i.wrench, &j.wrench)
	var ofK [8]float64 // k's part in each load, times the determinant
	for _, x := range loads {
		ofK[x] = -dot(&g.loads[x].wrench, &ij)
	}
	for k := range g.pushes[:n] {
		k := &g.pushes[k]
		det := dot(&ij, &k.wrench)
		if math.Abs(det) < 1e-9 {
			continue
		}
		least, sign := -1e-9*math.Abs(det), math.Copysign(1, det)
		var jk, ki [3]float64
		crossed := false
		for _, x := range loads {
			if sign*ofK[x] < least {
				continue
			}
			l := &g.loads[x]
			if !crossed {
				jk, ki, crossed = cross(&j.wrench, &k.wrench), cross(&k.wrench, &i.wrench), true
			}
			d := ofK[x] / det
			a := -dot(&l.wrench, &jk) / det
			if a < -1e-9 {
				continue
			}
			b := -dot(&l.wrench, &ki) / det
			if sum := float64(a*i.gap) + float64(b*j.gap) + float64(d*k.gap); b > -1e-9 && sum < l.sum {
				l.sum = sum
				for x := range l.motion { // where each of the three gives way by its gap
					l.motion[x] = -(float64(i.gap*jk[x]) + float64(j.gap*ki[x]) + float64(k.gap*ij[x])) / det
				}
			}
		}
	}
}

// wrench returns a unit force's components and its moment about the origin over a length.
func wrench(at, n geom.Pt, length float64) [3]float64 {
	return [3]float64{n.X, n.Y, at.Cross(n) / length}
}

func dot(a, b *[3]float64) float64 {
	return float64(a[0]*b[0]) + float64(a[1]*b[1]) + float64(a[2]*b[2])
}

func cross(a, b *[3]float64) [3]float64 {
	return [3]float64{float64(a[1]*b[2]) - float64(a[2]*b[1]), float64(a[2]*b[0]) - float64(a[0]*b[2]), float64(a[0]*b[1]) - float64(a[1]*b[0])}
}
