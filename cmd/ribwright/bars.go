package main

import (
	"sync"

	"ribwright/export"
	"ribwright/export/shop"
	"ribwright/geom/cut"
)

// barPlan is how the caps and sticks of a set are sawn from bars; it is worked out when it is first asked for.
type barPlan struct {
	once sync.Once
	bars cut.Bars
}

// bars returns the plan of the bars.
func (p *project) bars() cut.Bars {
	p.sawn.once.Do(func() { p.sawn.bars = cut.NewBars(p.set()).Planned() })
	return p.sawn.bars
}

// findBars tells of scarfs and of bars that are too short; where bars are counted also whether they suffice. A rib's own
// scarfs are found with the rib too, for its drawing.
func (p *project) findBars() {
	b := cut.NewBars(p.set())
	p.add(b.Find(p.doc))
	if b.Counted() {
		p.add(p.bars().FindShort(p.doc))
	}
	for i, j := range p.jobs {
		j.add(b.FindScarfs(j.doc, i))
	}
}

// barSheet is the diagrams of the bars.
func barSheet() sheet {
	return sheet{name: "bars", about: "how caps and sticks are sawn from bars", formats: []string{"pdf", "svg", "dxf"}, build: []string{"pdf", "svg"}, set: true,
		make:  func(j *job, _ *options) (export.Drawing, error) { return shop.Bars(j.project.doc, j.bars()), nil },
		pages: func(j *job, p shop.Page) export.Drawing { return shop.BarPages(j.project.doc, j.bars(), p) }}
}
