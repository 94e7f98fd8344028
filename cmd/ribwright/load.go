package main

import (
	"cmp"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"
	"sync"

	"ribwright/export/shop"
	"ribwright/geom/batch"
	"ribwright/geom/bend"
	"ribwright/geom/cut"
	"ribwright/geom/fasten"
	"ribwright/geom/finding"
	"ribwright/geom/jig"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/session"
	"ribwright/geom/takeoff"
	"ribwright/geom/wing"
)

//go:embed demo/*.toml
var demo embed.FS

// The embedded rib files.
const (
	demoName    = "marsh-wren.toml"
	starterName = "starter.toml"
)

// project is a rib file and the ribs that it gives.
type project struct {
	doc   *ribfile.Doc // as the file has it; each rib's own stands in its job
	plan  wing.Plan
	jobs  []*job // one for each kind of rib, root to tip
	found []finding.Finding
	whole bool // false where the file was too wrong to lay every rib out
	read  func(string) ([]byte, error)

	sessions session.Plan // at the bench
	batches  batch.Plan   // of adhesive

	sheets  cut.Layout // see layout
	nest    sync.Once
	nesting func(done, all int) // told how far the nesting is; may be nil
	sawn    barPlan             // see bars
}

// job is one kind of rib, laid out and counted.
type job struct {
	*project
	kind  wing.Kind
	index int  // in project.jobs
	slim  bool // see slimmed
	doc   *ribfile.Doc
	rib   *rib.Rib
	take  takeoff.TakeOff
	jig   jig.Jig
	found []finding.Finding // about this rib, and the file's own
	// While the drawings are made:
	field   func() shop.Field   // see drawn
	cutting func() shop.Cutting // see cut
	table   string              // what the section's table was taken for, in words; empty for equations
}

// first is the first kind of rib: the one of a set of one.
func (p *project) first() *job { return p.jobs[0] }

// named returns the kind of rib that is asked for by name; without a name, the only one.
func (p *project) named(name string) (*job, error) {
	if name == "" && len(p.jobs) == 1 {
		return p.first(), nil
	}
	var names []string
	for _, j := range p.jobs {
		if name != "" && strings.EqualFold(j.kind.Name, name) {
			return j.full(), nil
		}
		names = append(names, j.kind.Name)
	}
	for _, j := range p.jobs {
		if name != "" && j.builds(name) {
			return j.full(), nil
		}
	}
	switch {
	case len(p.jobs) == 1:
		return nil, usage("--rib %s: the file has one kind of rib only, leave the name out", name)
	case name == "":
		return nil, usage("say with --rib which rib is meant: %s", few(names))
	}
	return nil, usage("there is no rib %q: choose %s", name, few(names))
}

// tableForms says in words what the sections' tables were taken for, each once.
func (p *project) tableForms() []string {
	var out []string
	for _, j := range p.jobs {
		if j.table != "" && !slices.Contains(out, j.table) {
			out = append(out, j.table)
		}
	}
	return out
}

func (p *project) takes() []takeoff.TakeOff {
	var out []takeoff.TakeOff
	for _, j := range p.jobs {
		out = append(out, j.take)
	}
	return out
}

// clamps returns where the fasteners of every kind of rib stand.
func (p *project) clamps() []fasten.Pattern {
	var out []fasten.Pattern
	for _, j := range p.jobs {
		out = append(out, j.take.Fasteners)
	}
	return out
}

// set returns the ribs that are cut and glued together.
func (p *project) set() rib.Set {
	var out rib.Set
	for _, j := range p.jobs {
		out = append(out, j.entry())
	}
	return out
}

func (j *job) entry() rib.Entry {
	return rib.Entry{Name: j.kind.Name, Also: j.kind.Also, Doc: j.doc, Rib: j.rib}
}

// layout is where the plates lie on sheets of plywood. It takes a while, so it is worked out when it is first asked for.
func (p *project) layout() cut.Layout {
	p.nest.Do(func() { p.sheets = cut.Nest(p.set(), p.clamps(), p.nesting) })
	return p.sheets
}

// load reads a rib file, the embedded demo where name is empty, and lays its ribs out.
func load(name string, progress func(done, all int)) (*project, error) {
	read := func(n string) ([]byte, error) { return fs.ReadFile(demo, "demo/"+n) }
	data, err := read(demoName)
	if name == "" {
		name = demoName
	} else {
		data, err = readNamed(name)
		read = func(n string) ([]byte, error) { return readBeside(name, n) }
	}
	if err != nil {
		return nil, fmt.Errorf("the rib file cannot be read: %w", err)
	}
	return layOut(name, data, read, progress), nil
}

// load is load, and where plates may find no place on the sheets it looks whether they do. On a terminal it shows how
// far it is.
func (a *app) load(name string) (*project, error) {
	p, err := load(name, a.progress("laying out the ribs"))
	if err != nil || !p.whole {
		return p, err
	}
	p.nesting = a.progress("nesting the plates")
	if !finding.HasError(p.found) && cut.MayFail(p.set()) {
		p.add(p.layout().Findings(p.doc))
	}
	return p, nil
}

// readBeside reads a file that a rib file names.
func readBeside(ribFile, name string) ([]byte, error) {
	if !filepath.IsAbs(name) {
		name = filepath.Join(filepath.Dir(ribFile), name)
	}
	data, err := os.ReadFile(name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("there is no file %s", name)
	}
	return data, err
}

// layOut reads a rib file and lays its ribs out, as many at once as there are processors. progress may be nil.
func layOut(name string, data []byte, read func(string) ([]byte, error), progress func(done, all int)) *project {
	doc, found := ribfile.Read(name, data)
	p := &project{doc: doc, found: found, read: read}
	if finding.HasError(found) {
		return p
	}
	p.add(takeoff.FindCoupon(doc))
	plan, fs := wing.Of(doc)
	p.plan = plan
	p.add(fs)
	if finding.HasError(fs) {
		return p
	}
	debug.SetMemoryLimit(memory<<20 + int64(len(plan.Kinds))<<20/kindsInMB)
	jobs := make([]*job, len(plan.Kinds))
	step := counter(len(jobs), progress)
	together(len(jobs), func(i int) {
		jobs[i] = p.layOutKind(plan.Kinds[i])
		if jobs[i].index = i; len(jobs) > mostFull {
			jobs[i].slimmed()
		}
		step()
	})
	p.jobs = jobs
	if p.whole = !slices.ContainsFunc(jobs, func(j *job) bool { return j.rib == nil }); p.whole {
		p.putTogether()
	}
	p.add(p.plan.Notes())
	own := make([][]finding.Finding, len(p.jobs))
	for i, j := range p.jobs {
		own[i] = j.found
		j.entitle()
		j.found = finding.Sort(append(slices.Clone(p.found), j.found...))
	}
	p.found = finding.Sort(append(p.found, gather(p.plan.Kinds, own)...))
	if p.whole {
		p.planBatches()
	}
	if p.whole && !finding.HasError(p.found) {
		p.findBars()
		p.add(cut.FindWebs(p.set()))
		p.add(cut.FindPly(p.set()))
	}
	return p
}

// mostFull is how many kinds of rib are kept in memory with all that belongs to them.
const mostFull = 64

// slimmed lets go of what only a rib's own drawings and lists need.
func (j *job) slimmed() {
	if j.rib == nil {
		return
	}
	j.slim, j.jig, j.take.Spots, j.take.Mass.Parts = true, jig.Jig{}, nil, nil
	j.rib = j.rib.Slim()
}

// full returns the job with all that belongs to it, laid out anew where it was let go.
func (j *job) full() *job {
	if !j.slim {
		return j
	}
	f := j.layOutKind(j.kind)
	f.index, f.found = j.index, j.found
	f.entitle()
	return f
}

// layOutKind lays one kind of rib out. Its findings have their places in the rib file.
func (p *project) layOutKind(k wing.Kind) *job {
	j := &job{project: p, kind: k, doc: k.Doc}
	sec, fs := p.plan.Section(k, p.read)
	j.add(fs)
	j.table = sec.Form
	if finding.HasError(fs) {
		return j
	}
	j.rib, fs = rib.Build(j.doc, sec)
	j.add(fs)
	j.add(p.plan.FindPlates(k, j.rib))
	j.take = takeoff.Of(j.rib, j.doc)
	j.add(bend.Find(j.take.Bends, j.doc))
	j.add(fasten.Find(j.take.Fasteners, j.rib, j.doc))
	j.add(bend.FindSkins(j.rib.Contour.Upper, j.rib.Contour.Lower, j.doc))
	if !finding.HasError(j.found) {
		j.jig, fs = jig.Plan(j.rib, j.doc)
		j.add(fs)
	}
	if !finding.HasError(j.found) {
		j.add(cut.Check(j.rib, j.doc))
	}
	return j
}

// add takes findings over, with their places in the rib file.
func (j *job) add(fs []finding.Finding) {
	j.found = finding.Sort(append(j.found, j.doc.Locate(fs)...))
}

func (p *project) add(fs []finding.Finding) {
	p.found = finding.Sort(append(p.found, p.doc.Locate(fs)...))
}

// report gathers everything for report.json.
func (p *project) report() takeoff.Report {
	out := takeoff.NewReport(p.doc, p.found)
	if !p.whole {
		return out
	}
	for _, j := range p.jobs {
		out.Add(j.rib, j.take)
	}
	if w := p.plan.Report(p.doc.Title); w != nil {
		out.Wing = w
	}
	if !finding.HasError(p.found) {
		out.Bars = p.bars().Report()
	}
	out.Ribs = func(yield func([]byte, error) bool) {
		for _, j := range p.jobs {
			if !yield(j.full().report()) {
				return
			}
		}
	}
	if s := p.sessions.Report(p.set()); len(s) > 0 {
		out.Sessions = s
	}
	out.Batches = p.batches.Report(p.set())
	return out
}

// report is the rib as it stands in report.json.
func (j *job) report() ([]byte, error) {
	one := takeoff.NewRibReport(cmp.Or(j.kind.Name, j.doc.Title), j.rib, j.take)
	if len(j.jig.Blocks) > 0 {
		one.Jig = j.jig.Report()
	}
	return one.Text()
}

// tell prints the findings, and returns errFound where one is an error.
func (a *app) tell(found []finding.Finding) error {
	n := 0
	for _, f := range found {
		if f.Severity == finding.Error {
			n++
		}
		if _, err := fmt.Fprintln(a.err, f); err != nil {
			return err
		}
	}
	if n == 0 {
		return nil
	}
	fmt.Fprintf(a.err, "%d %s: nothing to build from is written\n", n, plural(n, "error", "errors"))
	return errFound
}

func plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}
