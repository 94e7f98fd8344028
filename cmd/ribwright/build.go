package main

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"ribwright/geom/ribfile"
)

// part says which outputs are meant: what the set has once, what every kind of rib has, or with a single kind of rib
// both, in one folder.
type part int

const (
	inSet part = 1 << iota
	ofRib
)

// build writes every output of a rib file: in a folder, and where there are several kinds of rib, what belongs to one
// kind in a folder below it.
func (a *app) build(args []string, o *options) error {
	name := ""
	if len(args) > 0 {
		name = args[0]
	}
	if err := o.checkDots(); err != nil {
		return err
	}
	if o.out == "-" {
		return usage("build writes many files: name a folder with -o, or use draw and list for one")
	}
	if err := a.checkPaper(o); err != nil {
		return err
	}
	base := strings.TrimSuffix(filepath.Base(cmp.Or(name, demoName)), ".toml")
	dir := cmp.Or(o.out, filepath.Join("ribwright-out", base))
	if err := intoFolder(dir); err != nil {
		return err
	}
	p, err := a.ready(name)
	if err != nil {
		return err
	}
	if len(p.jobs) == 1 {
		n, err := a.folder(p.first(), inSet|ofRib, dir, o)
		if err != nil {
			return err
		}
		return a.summary(p.first(), dir, n)
	}
	return a.buildSet(p, dir, o)
}

// folder writes a folder's files, and returns how many.
func (a *app) folder(j *job, which part, dir string, o *options) (int, error) {
	made, err := makeFolder(dir)
	if err != nil {
		return 0, err
	}
	d := &draft{dir: dir, made: made}
	defer d.drop()
	if err := a.fill(j, which, d, o); err != nil {
		return 0, err
	}
	if err := d.keep(); err != nil {
		return 0, err
	}
	return len(d.names), a.removeStale(dir, d.names)
}

// fill makes a folder's files; what is drawn is let go as soon as it is written.
func (a *app) fill(j *job, which part, d *draft, o *options) error {
	groups := j.groups(which, o)
	parts, errs, notes := make([]draft, len(groups)), make([]error, len(groups)), make([]bytes.Buffer, len(groups))
	together(len(groups), func(i int) {
		parts[i].dir = d.dir
		files, err := groups[i](&app{a.out, &notes[i]})
		if errs[i] = err; err == nil {
			errs[i] = parts[i].write(files)
		}
	})
	for i := range parts {
		d.names, d.temps = append(d.names, parts[i].names...), append(d.temps, parts[i].temps...)
	}
	for i := range notes {
		if errs[i] != nil {
			return errs[i]
		}
		if _, err := notes[i].WriteTo(a.err); err != nil {
			return err
		}
	}
	return nil
}

// removeStale takes away what an older build left that this one does not write: nobody shall cut by it.
func (a *app) removeStale(dir string, written []string) error {
	names, err := filepath.Glob(filepath.Join(dir, "drill-*.ngc"))
	if err != nil {
		return err
	}
	for _, s := range sheets() {
		for _, format := range s.build {
			names = append(names, s.base()+"."+format)
		}
	}
	for _, name := range append(names, "holes.csv", "scarfs.csv", "wing.csv", "wing-spars.csv") {
		name = filepath.Base(name)
		if slices.Contains(written, name) {
			continue
		}
		switch err := os.Remove(filepath.Join(dir, name)); {
		case err == nil:
			fmt.Fprintf(a.err, "note: %s of an older build is removed: this rib has none\n", filepath.Join(dir, name))
		case !errors.Is(err, fs.ErrNotExist):
			return err
		}
	}
	return a.removePictures(dir, written)
}

// summary says what was built of a single kind of rib, in a few lines.
func (a *app) summary(j *job, dir string, files int) error {
	r, t, u := j.rib, j.take, j.doc.Units
	plates := platesOf(j)
	var b strings.Builder
	fmt.Fprintf(&b, "%s: chord %s, depth %s, %d %s\n", r.Title, j.doc.Length(r.Chord), j.doc.Length(r.Contour.DepthMax), r.Count, plural(r.Count, "rib", "ribs"))
	if j.table != "" {
		fmt.Fprintf(&b, "  section    %s\n", j.table)
	}
	fmt.Fprintf(&b, "  one rib    %d sticks, %d plates, glue area %s, mass %s\n", len(r.Sticks), plates, area(t.Glue.TotalMM2, u), grams(t.Mass.TotalG, u))
	sides := ""
	if t.Sides[1].MixedG > 0 {
		sides = fmt.Sprintf(": %s for the first side, %s for the second", grams(t.Sides[0].MixedG, u), grams(t.Sides[1].MixedG, u))
	}
	fmt.Fprintf(&b, "  adhesive   mix %s of A and %s of B%s\n", grams(t.Adhesive.PartAG, u), grams(t.Adhesive.PartBG, u), sides)
	if words := j.sessions.Words(); words != "" {
		fmt.Fprintf(&b, "  sessions   %s\n", words)
	}
	if words := j.batchWords(); words != "" {
		fmt.Fprintf(&b, "  batches    %s\n", words)
	}
	n := float64(r.Count)
	fmt.Fprintf(&b, "  the set    %d sticks, %d plates, adhesive %s, mass %s\n", r.Count*len(r.Sticks), r.Count*plates, grams(n*t.Adhesive.MixedG, u), grams(n*t.Mass.TotalG, u))
	first := ""
	if j.plan.SemiSpan > 0 {
		first = "wing.pdf, "
	}
	fmt.Fprintf(&b, "  files      %d in %s: begin with %sjig-tiles.pdf and lists.md\n", files, dir, first)
	return a.endSummary(&b)
}

func (a *app) endSummary(b *strings.Builder) error {
	b.WriteString("Measure the check squares before cutting. Follow the approved plans and the adhesive maker's figures.\n")
	_, err := io.WriteString(a.out, b.String())
	return err
}

// platesOf counts the plates of one rib, on both faces.
func platesOf(j *job) int {
	n := 0
	for _, g := range j.rib.Gussets {
		n += g.Faces
	}
	return n
}

func area(mm2 float64, u ribfile.Units) string {
	if u == ribfile.Inch {
		return fmt.Sprintf("%.1f in²", mm2/(ribfile.MMPerInch*ribfile.MMPerInch))
	}
	return fmt.Sprintf("%.0f cm²", mm2/100)
}

// grams formats a mass for people: by the scale on the bench, and by the pound or kilogram where there is much.
func grams(g float64, u ribfile.Units) string {
	oz := g / ribfile.GramsPerOunce
	switch {
	case u == ribfile.Inch && oz >= 16:
		return fmt.Sprintf("%.2f lb", oz/16)
	case u == ribfile.Inch:
		return fmt.Sprintf("%.2f oz", oz)
	case g >= 1000:
		return fmt.Sprintf("%.2f kg", g/1000)
	}
	return fmt.Sprintf("%.1f g", g)
}
