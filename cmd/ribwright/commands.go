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
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
)

// newFile writes the starter rib file.
func (a *app) newFile(args []string, o *options) error {
	name := args[0]
	if _, err := os.Stat(name); err == nil && !o.force {
		return usage("%s is there already: choose another name, or write over it with --force", name)
	}
	data, err := fs.ReadFile(demo, "demo/"+starterName)
	if err != nil {
		return err
	}
	if err := a.writeOne(name, "", func(w io.Writer) error { _, err := w.Write(data); return err }); err != nil || name == "-" {
		return err
	}
	_, err = fmt.Fprintf(a.out, "%s written. Change it to your plans, then: ribwright build %s\n", name, name)
	return err
}

// check tells the findings, or prints the report.
func (a *app) check(args []string, o *options) error {
	j, err := a.load(args[0])
	if err != nil {
		return err
	}
	if o.json {
		if err := a.writeOne("-", "", j.report().Write); err != nil {
			return err
		}
		if finding.HasError(j.found) {
			return errFound
		}
		return nil
	}
	if err := a.tell(j.found); err != nil {
		return err
	}
	if j.table != "" {
		if _, err := fmt.Fprintf(a.out, "%s: the section's table was read as %s\n", args[0], j.table); err != nil {
			return err
		}
	}
	if len(j.found) == 0 {
		_, err = fmt.Fprintf(a.out, "%s: nothing to find fault with\n", args[0])
	}
	return err
}

// ready loads a rib file for writing: findings are told, and errors end it.
func (a *app) ready(name string) (*job, error) {
	j, err := a.load(name)
	if err != nil {
		return nil, err
	}
	return j, a.tell(j.found)
}

// build writes every output of a rib.
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
	j, err := a.ready(name)
	if err != nil {
		return err
	}
	base := strings.TrimSuffix(filepath.Base(cmp.Or(name, demoName)), ".toml")
	dir := cmp.Or(o.out, filepath.Join("ribwright-out", base))
	files, err := a.outputs(j, o)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return fmt.Errorf("the folder for the output cannot be made: %w", err)
	}
	if err := writeAll(dir, files); err != nil {
		return err
	}
	if err := a.removeStale(dir, files); err != nil {
		return err
	}
	return a.summary(j, dir, files)
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
	for _, name := range append(names, "holes.csv") {
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

// outputs lists the files of a build.
func (a *app) outputs(j *job, o *options) ([]file, error) {
	files, err := a.drawings(j, o)
	if err != nil {
		return nil, err
	}
	tables := j.tables(true)
	for _, t := range tables {
		files = append(files, file{t.ID + ".csv", func(w io.Writer) error { return list.CSV(w, t) }})
	}
	if hasHoles(j) {
		for k := range j.layout().Sheets {
			files = append(files, file{fmt.Sprintf("drill-%d.ngc", k+1), shop.Drilling(j.doc, j.layout(), k).Write})
		}
	}
	return append(files,
		file{"lists.md", func(w io.Writer) error { return list.Markdown(w, tables...) }},
		file{"lists.json", func(w io.Writer) error { return list.JSON(w, tables...) }},
		file{"report.json", j.report().Write},
	), nil
}

// tables returns the lists of a rib; those of the sheets of plywood only where they are asked for.
func (j *job) tables(withSheets bool) []export.Table {
	out := shop.Tables(j.rib, j.doc, j.take)
	if withSheets && hasPlates(j) {
		out = append(out, shop.CutTables(j.doc, j.layout())...)
		out = append(out, shop.Buy(shop.PlywoodToBuy(j.doc, j.layout())))
	}
	return out
}

// summary says what was built, in a few lines.
func (a *app) summary(j *job, dir string, files []file) error {
	r, t, u := j.rib, j.take, j.doc.Units
	plates := 0
	for _, g := range r.Gussets {
		plates += g.Faces
	}
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
	n := float64(r.Count)
	fmt.Fprintf(&b, "  the set    %d sticks, %d plates, adhesive %s, mass %s\n", r.Count*len(r.Sticks), r.Count*plates, grams(n*t.Adhesive.MixedG, u), grams(n*t.Mass.TotalG, u))
	fmt.Fprintf(&b, "  files      %d in %s: begin with jig-tiles.pdf and lists.md\n", len(files), dir)
	b.WriteString("Measure the check squares before cutting. Follow the approved plans and the adhesive maker's figures.\n")
	_, err := io.WriteString(a.out, b.String())
	return err
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

// draw writes one drawing.
func (a *app) draw(args []string, o *options) error {
	sh, err := findSheet(o.sheet)
	if err != nil {
		return err
	}
	format, err := o.drawFormat(sh)
	if err != nil {
		return err
	}
	if err := a.checkPaper(o); err != nil {
		return err
	}
	j, err := a.ready(args[0])
	if err != nil && !(o.proof && j != nil && j.whole && sh.proof) {
		return err
	}
	faulty := err // a proof is drawn all the same
	if sh.there != nil && !sh.there(j) {
		return fmt.Errorf("the rib needs no such sheet: %s, %s", sh.name, sh.about)
	}
	d, err := sh.draw(j, o, format)
	if err != nil {
		return err
	}
	if format == "png" {
		err = a.drawPictures(d, sh.base(), args[0], o)
	} else {
		err = a.writeOne(o.out, args[0], drawing(d, format, j.doc.Drawing.DXFUnits))
	}
	if err != nil {
		return err
	}
	return faulty
}

// list prints lists.
func (a *app) list(args []string, o *options) error {
	format, err := o.chooseFormat("md", "md", "csv", "json")
	if err != nil {
		return err
	}
	if o.table != "all" && !slices.Contains(tableNames, o.table) {
		return usage("there is no list %q: choose all, %s", o.table, strings.Join(tableNames, ", "))
	}
	j, err := a.ready(args[0])
	if err != nil {
		return err
	}
	tables := slices.DeleteFunc(j.tables(o.table == "all" || slices.Contains(cutTables, o.table)), func(t export.Table) bool { return o.table != "all" && t.ID != o.table })
	return a.writeOne(o.out, args[0], func(w io.Writer) error {
		switch format {
		case "csv":
			return list.CSV(w, tables...)
		case "json":
			return list.JSON(w, tables...)
		}
		return list.Markdown(w, tables...)
	})
}

// chooseFormat returns the format asked for, or that of the output's name.
func (o *options) chooseFormat(fallback string, known ...string) (string, error) {
	ext := strings.ToLower(strings.TrimPrefix(filepath.Ext(o.out), "."))
	if o.format == "" && o.out != "-" && ext != "" && !slices.Contains(known, ext) {
		return "", usage("the output's name ends in .%s: use one of %s, or --format", ext, strings.Join(known, ", "))
	}
	if o.out == "-" {
		ext = ""
	}
	f := cmp.Or(o.format, ext, fallback)
	if !slices.Contains(known, f) {
		return "", usage("there is no format %q here: choose %s", f, strings.Join(known, ", "))
	}
	return f, nil
}
