package main

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"

	"ribwright/geom/bend"
	"ribwright/geom/cut"
	"ribwright/geom/finding"
	"ribwright/geom/jig"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
	"ribwright/geom/takeoff"
)

//go:embed demo/*.toml
var demo embed.FS

// The embedded rib files.
const (
	demoName    = "marsh-wren.toml"
	starterName = "starter.toml"
)

// job is a rib file, laid out and counted.
type job struct {
	doc   *ribfile.Doc
	rib   *rib.Rib
	take  takeoff.TakeOff
	jig   jig.Jig
	found []finding.Finding
	table string // what the section's table was taken for, in words; empty for equations
	whole bool   // false where the file was too wrong to lay a rib out

	sheets  cut.Layout // see layout
	nest    sync.Once
	nesting func(done, all int) // told how far the nesting is; may be nil
}

// layout is where the plates lie on sheets of plywood. It takes a while, so it is worked out when it is first asked for.
func (j *job) layout() cut.Layout {
	j.nest.Do(func() { j.sheets = cut.Nest(rib.One(j.rib, j.doc), j.nesting) })
	return j.sheets
}

// load reads a rib file, the embedded demo where name is empty, and lays its rib out.
func load(name string) (*job, error) {
	read := func(n string) ([]byte, error) { return fs.ReadFile(demo, "demo/"+n) }
	data, err := read(demoName)
	if name == "" {
		name = demoName
	} else {
		data, err = os.ReadFile(name)
		read = func(n string) ([]byte, error) { return readBeside(name, n) }
	}
	if err != nil {
		return nil, fmt.Errorf("the rib file cannot be read: %w", err)
	}
	return layOut(name, data, read), nil
}

// load is load, and where plates may find no place on the sheets it looks whether they do. On a terminal it shows how
// far the nesting is.
func (a *app) load(name string) (*job, error) {
	j, err := load(name)
	if err != nil || !j.whole {
		return j, err
	}
	j.nesting = a.progress("nesting the plates")
	if !finding.HasError(j.found) && cut.MayFail(rib.One(j.rib, j.doc)) {
		j.add(j.layout().Findings(j.doc))
	}
	return j, nil
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

func layOut(name string, data []byte, read func(string) ([]byte, error)) *job {
	doc, found := ribfile.Read(name, data)
	j := &job{doc: doc, found: found}
	if finding.HasError(found) {
		return j
	}
	sec, fs := rib.Section(doc, read)
	j.add(fs)
	j.table = sec.Form
	if finding.HasError(fs) {
		return j
	}
	j.rib, fs = rib.Build(doc, sec)
	j.add(fs)
	j.take, j.whole = takeoff.Of(j.rib, doc), true
	j.add(bend.Find(j.take.Bends, doc))
	j.add(takeoff.FindCoupon(doc))
	j.add(bend.FindSkins(j.rib.Contour.Upper, j.rib.Contour.Lower, doc))
	if !finding.HasError(j.found) {
		j.jig, fs = jig.Plan(j.rib, doc)
		j.add(fs)
	}
	if !finding.HasError(j.found) {
		j.add(cut.Check(j.rib, doc))
	}
	return j
}

// add takes findings over, with their places in the rib file.
func (j *job) add(fs []finding.Finding) {
	j.found = finding.Sort(append(j.found, j.doc.Locate(fs)...))
}

// report gathers everything for report.json.
func (j *job) report() takeoff.Report {
	out := takeoff.NewReport(j.doc, j.found)
	if j.rib == nil {
		return out
	}
	out.Add(j.rib, j.take)
	one := takeoff.NewRibReport(j.doc.Title, j.rib, j.take)
	if len(j.jig.Blocks) > 0 {
		one.Jig = j.jig.Report()
	}
	out.Ribs = func(yield func(takeoff.RibReport) bool) { yield(one) }
	return out
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
