package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync/atomic"
)

// buildSet writes the outputs of several kinds of rib. A rib's folder is written as soon as its drawings are made; what the set has
// once is made meanwhile, and written last.
func (a *app) buildSet(p *project, dir string, o *options) error {
	made, err := makeFolder(dir)
	if err != nil {
		return err
	}
	set := &draft{dir: dir, made: made}
	defer set.drop()
	n := len(p.jobs)
	texts, err := newSpool(dir, n)
	if err != nil {
		return err
	}
	defer texts.drop()
	counts, errs, notes := make([]int, n+1), make([]error, n+1), make([]bytes.Buffer, n+1)
	step := p.thenNesting(n, counter(n, a.progress("drawing the ribs")))
	together(n+1, func(i int) { // the set takes longest: it comes first
		own := &app{a.out, &notes[i]}
		if i == 0 {
			errs[i] = own.fill(p.first(), inSet, set, o)
			return
		}
		j := p.jobs[i-1].full()
		counts[i], errs[i] = own.folder(j, ofRib, filepath.Join(dir, j.kind.Name), o)
		if errs[i] == nil {
			errs[i] = texts.put(i-1, j.report)
		}
		step()
	})
	for i := range n {
		if _, err := notes[i+1].WriteTo(a.err); err != nil {
			return err
		}
	}
	if err := errors.Join(errs[1:]...); err != nil {
		return err
	}
	if _, err := notes[0].WriteTo(a.err); err != nil {
		return err
	}
	if errs[0] != nil {
		return errs[0]
	}
	report := p.report()
	report.Ribs = texts.all
	if err := set.write([]file{{"report.json", report.Write}}); err != nil {
		return err
	}
	if err := set.keep(); err != nil {
		return err
	}
	if err := a.removeStale(dir, set.names); err != nil {
		return err
	}
	if err := a.removeRibs(p, dir); err != nil {
		return err
	}
	files := len(set.names)
	for _, c := range counts {
		files += c
	}
	return a.summarySet(p, dir, files)
}

// thenNesting returns step, and shows how far the nesting is only when it has been called n times: one line on a terminal tells of one
// thing.
func (p *project) thenNesting(n int, step func()) func() {
	show := p.nesting
	if show == nil {
		return step
	}
	var done atomic.Int64
	p.nesting = func(d, all int) {
		if done.Load() == int64(n) {
			show(d, all)
		}
	}
	return func() {
		step()
		done.Add(1)
	}
}

// removeRibs takes away what an older build left in the folders of ribs that the set has no longer.
func (a *app) removeRibs(p *project, dir string) error {
	found, err := filepath.Glob(filepath.Join(escape(dir), "*", "jig-tiles.pdf"))
	if err != nil {
		return err
	}
	for _, path := range found {
		old := filepath.Dir(path)
		if slices.ContainsFunc(p.jobs, func(j *job) bool { return j.kind.Name == filepath.Base(old) }) {
			continue
		}
		if err := a.removeStale(old, nil); err != nil {
			return err
		}
		if err := os.Remove(filepath.Join(old, ribLists)); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
		if left, err := os.ReadDir(old); err == nil && len(left) == 0 {
			if err := os.Remove(old); err != nil {
				return err
			}
		}
	}
	return nil
}

// summarySet says what was built of several kinds of rib.
func (a *app) summarySet(p *project, dir string, files int) error {
	u, ribs, sticks, plates, mixed, mass := p.doc.Units, 0, 0, 0, 0.0, 0.0
	for _, j := range p.jobs {
		n := j.rib.Count
		ribs, sticks, plates = ribs+n, sticks+n*len(j.rib.Sticks), plates+n*platesOf(j)
		mixed += float64(float64(n) * j.take.Adhesive.MixedG)
		mass += float64(float64(n) * j.take.Mass.TotalG)
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %d ribs of %d kinds, %s\n", p.doc.Title, ribs, len(p.jobs), p.plan.Chords())
	for _, form := range p.tableForms() {
		fmt.Fprintf(&b, "  section    %s\n", form)
	}
	if words := p.sessions.Words(); words != "" {
		fmt.Fprintf(&b, "  sessions   %s\n", words)
	}
	if words := p.batchWords(); words != "" {
		fmt.Fprintf(&b, "  batches    %s\n", words)
	}
	fmt.Fprintf(&b, "  the set    %d sticks, %d plates, adhesive %s, mass %s\n", sticks, plates, grams(mixed, u), grams(mass, u))
	fmt.Fprintf(&b, "  files      %d in %s: begin with wing.pdf and lists.md; each kind of rib has a folder with its name\n", files, dir)
	return a.endSummary(&b)
}
