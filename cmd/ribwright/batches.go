package main

import (
	"fmt"
	"math"

	"ribwright/geom/batch"
	"ribwright/geom/ribfile"
	"ribwright/geom/session"
	"ribwright/geom/takeoff"
)

// planBatches works out the sessions at the bench and in which batches the adhesive is mixed, and adds what the plans break
// to the findings.
func (p *project) planBatches() {
	p.sessions = session.Of(p.set())
	p.add(p.sessions.Findings(p.doc))
	p.batches = batch.Of(p.set(), p.takes())
	p.add(append(takeoff.FindAdhesive(p.doc), p.batches.Findings(p.doc)...))
}

// batchWords says in a line how the adhesive is mixed: "14 batches, 3 to 4 sides from each".
func (p *project) batchWords() string {
	all := p.batches.Batches
	if len(all) == 0 {
		return ""
	}
	least, most := len(all[0].Sides), len(all[0].Sides)
	for _, b := range all {
		least, most = min(least, len(b.Sides)), max(most, len(b.Sides))
	}
	s := fmt.Sprintf("%d %s, ", len(all), plural(len(all), "batch", "batches"))
	if least < most {
		s += fmt.Sprintf("%d to ", least)
	}
	s += fmt.Sprintf("%d %s from each", most, plural(most, "side", "sides"))
	if b := p.doc.Batch; b.PotLife > 0 {
		life := all[0].LifeMin
		for _, k := range all {
			life = min(life, k.LifeMin)
		}
		s += ", used up within " + ribfile.Duration(math.Floor(life))
	}
	return s
}

// cup returns what a cup of a batch holds, and what it is for; nothing where no plate and no stick is glued.
func (p *project) cup(number int) (grams float64, what string, err error) {
	all := p.batches.Batches
	if len(all) == 0 {
		return 0, "", nil
	}
	if number < 1 || number > len(all) {
		return 0, "", usage("--batch %d: the rib file has batches 1 to %d, see list --table batches", number, len(all))
	}
	b := all[number-1]
	face := [2]string{"first", "second"}[b.Sides[0].Face]
	if b.Mixed() {
		face = "first and second"
	}
	what = fmt.Sprintf("batch %d, the %s %s of %s %s", number, face, plural(len(b.Sides), "side", "sides"), plural(len(b.Sides), "rib", "ribs"), b.Names(p.set()))
	if b.Cups > 1 {
		what = fmt.Sprintf("one of %d cups of %s", b.Cups, what)
	}
	return b.CupG(), what, nil
}
