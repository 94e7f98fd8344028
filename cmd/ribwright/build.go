package main

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"ribwright/export"
	"ribwright/export/list"
	"ribwright/export/shop"
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

// buildSet writes the outputs of several kinds of rib. A rib's folder is written as soon as its drawings are made.
func (a *app) buildSet(p *project, dir string, o *options) error {
	counts, errs := make([]int, len(p.jobs)), make([]error, len(p.jobs))
	step := counter(len(p.jobs), a.progress("drawing the ribs"))
	together(len(p.jobs), func(i int) {
		j := p.jobs[i].full()
		counts[i], errs[i] = a.folder(j, ofRib, filepath.Join(dir, j.kind.Name), o)
		step()
	})
	if err := errors.Join(errs...); err != nil {
		return err
	}
	n, err := a.folder(p.first(), inSet, dir, o)
	if err != nil {
		return err
	}
	if err := a.removeRibs(p, dir); err != nil {
		return err
	}
	for _, c := range counts {
		n += c
	}
	return a.summarySet(p, dir, n)
}

// folder writes a folder's files, and returns how many.
func (a *app) folder(j *job, which part, dir string, o *options) (int, error) {
	files, err := a.outputs(j, which, o)
	if err != nil {
		return 0, err
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return 0, fmt.Errorf("the folder for the output cannot be made: %w", err)
	}
	if err := writeAll(dir, files); err != nil {
		return 0, err
	}
	return len(files), a.removeStale(dir, files)
}

// removeStale takes away what an older build left that this one does not write: nobody shall cut by it.
func (a *app) removeStale(dir string, files []file) error {
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
		if slices.ContainsFunc(files, func(f file) bool { return f.name == name }) {
			continue
		}
		switch err := os.Remove(filepath.Join(dir, name)); {
		case err == nil:
			fmt.Fprintf(a.err, "note: %s of an older build is removed: this rib has none\n", filepath.Join(dir, name))
		case !errors.Is(err, fs.ErrNotExist):
			return err
		}
	}
	return a.removePictures(dir, files)
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

// ribLists holds the lists for reading.
const ribLists = "lists.md"

// outputs lists the files of a folder.
func (a *app) outputs(j *job, which part, o *options) ([]file, error) {
	files, err := a.drawings(j, which, o)
	if err != nil {
		return nil, err
	}
	tables := j.tables(which, true)
	files = append(files, file{ribLists, func(w io.Writer) error { return list.Markdown(w, shop.Book(j.title(which), tables)...) }})
	if which&inSet == 0 {
		return files, nil
	}
	listed := tables
	if which == inSet|ofRib { // lists.md of a wing of one kind is that of its rib
		listed = slices.Concat(tables, j.wingTables())
	}
	for _, t := range listed {
		files = append(files, file{t.ID + ".csv", func(w io.Writer) error { return list.CSV(w, t) }})
	}
	if hasHoles(j) {
		for k := range j.layout().Sheets {
			files = append(files, file{fmt.Sprintf("drill-%d.ngc", k+1), shop.Drilling(j.project.doc, j.layout(), k).Write})
		}
	}
	return append(files,
		file{"lists.json", func(w io.Writer) error { return list.JSON(w, tables...) }},
		file{"report.json", j.report().Write},
	), nil
}

// title is what the lists of a folder are headed with: the kind of rib where it has a folder of its own.
func (j *job) title(which part) string {
	if which&inSet == 0 {
		return "Rib " + j.kind.Name
	}
	return j.project.doc.Title
}

// tables returns the lists of a kind of rib, of the set, or of both, in the order of the work; those of the sheets of plywood, and of what to buy,
// only where they are asked for.
func (j *job) tables(which part, withSheets bool) []export.Table {
	if which&inSet == 0 {
		return shop.Tables(j.rib, j.doc, j.board(), j.take)
	}
	return j.project.tables(which, withSheets)
}

// tables returns the lists of the set, and of its only rib where that is asked for too.
func (p *project) tables(which part, withSheets bool) []export.Table {
	j := p.first()
	var out []export.Table
	if which&ofRib != 0 {
		out = shop.Tables(j.rib, j.doc, j.board(), j.take)
	} else {
		out = append(shop.SetTables(p.set(), p.takes()), p.wingTables()...)
	}
	out = append(out, shop.Sessions(p.set(), p.sessions, p.batches), shop.Batches(p.set(), p.batches))
	out = append(out, shop.BarTables(p.doc, p.bars())...)
	if !withSheets {
		return shop.InOrder(out)
	}
	buy := shop.BarsToBuy(p.doc, p.bars())
	if hasPlates(j) {
		out = append(out, shop.CutTables(p.doc, p.layout())...)
		buy = append(buy, shop.PlywoodToBuy(p.doc, p.layout())...)
	}
	buy = append(buy, shop.ApartToBuy(p.set(), p.layout())...)
	buy = append(buy, shop.FastenersToBuy(p.set(), p.takes())...)
	buy = append(buy, shop.AdhesiveToBuy(p.doc, p.batches)...)
	return shop.InOrder(append(out, shop.Buy(buy)))
}

// wingTables returns the lists of where ribs and spars stand, if there is a wing.
func (p *project) wingTables() []export.Table {
	if p.plan.SemiSpan == 0 {
		return nil
	}
	return []export.Table{shop.Wing(p.doc, p.plan), shop.WingSpars(p.doc, p.plan, p.set())}
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
