package main

import (
	"slices"
	"strings"

	"ribwright/geom/finding"
)

// putTogether makes one kind of those that are the same rib, now that they are laid out: it is drawn once, with the count of all.
func (p *project) putTogether() {
	if slices.ContainsFunc(p.jobs, func(j *job) bool { return finding.HasError(j.found) }) {
		return // each shall be told of its own mistakes
	}
	first := p.set().Alike()
	plan := p.plan.Together(first)
	if len(plan.Kinds) == len(p.jobs) {
		return
	}
	var jobs []*job
	for i, j := range p.jobs {
		if k := p.jobs[first[i]]; k != j {
			k.hear(j.found)
			continue
		}
		j.index = len(jobs)
		jobs = append(jobs, j)
		j.kind = plan.Kinds[j.index]
		j.doc = j.kind.Doc
		r := *j.rib
		r.Count, r.Mirrored, j.take.Count = j.doc.Rib.Count, j.doc.Rib.Mirrored, j.doc.Rib.Count
		j.rib = &r
	}
	p.plan, p.jobs = plan, jobs
}

// entitle writes on the rib which ribs of the wing it is for, and how left and right ones differ: that is known when all ribs are
// laid out.
func (j *job) entitle() {
	if j.rib == nil {
		return
	}
	j.rib.Hands = j.plan.HandWords(j.kind)
	if j.rib.Title = j.doc.Title; j.kind.Name != "" {
		j.rib.Title = j.kind.Ribs()
	}
}

// hear takes over what was found in the same rib under another name, where it is new.
func (j *job) hear(found []finding.Finding) {
	for _, f := range found {
		if !slices.ContainsFunc(j.found, func(o finding.Finding) bool {
			return o.Code == f.Code && o.Key == f.Key && o.Part == f.Part && o.Message == f.Message
		}) {
			j.found = append(j.found, f)
		}
	}
}

// builds reports whether a rib of that name or number is of this kind.
func (j *job) builds(name string) bool {
	return slices.ContainsFunc(j.kind.Also, func(n string) bool { return strings.EqualFold(n, name) })
}
