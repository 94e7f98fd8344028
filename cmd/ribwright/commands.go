package main

import (
	"cmp"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"ribwright/export"
	"ribwright/export/list"
	"ribwright/geom/finding"
)

// newFile writes the starter rib file.
func (a *app) newFile(args []string, o *options) error {
	name := args[0]
	if at, err := os.Stat(name); err == nil && !at.IsDir() && !o.force {
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
	p, err := a.load(args[0])
	if err != nil {
		return err
	}
	if o.json {
		if err := a.writeOne("-", "", p.report().Write); err != nil {
			return err
		}
		if finding.HasError(p.found) {
			return errFound
		}
		return nil
	}
	if err := a.tell(p.found); err != nil {
		return err
	}
	for _, form := range p.tableForms() {
		if _, err := fmt.Fprintf(a.out, "%s: the section's table was read as %s\n", args[0], form); err != nil {
			return err
		}
	}
	if len(p.found) == 0 {
		_, err = fmt.Fprintf(a.out, "%s: nothing to find fault with\n", args[0])
	}
	return err
}

// ready loads a rib file for writing: findings are told, and errors end it.
func (a *app) ready(name string) (*project, error) {
	p, err := a.load(name)
	if err != nil {
		return nil, err
	}
	return p, a.tell(p.found)
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
	p, err := a.ready(args[0])
	if err != nil && !(o.proof && p != nil && p.whole && sh.proof) {
		return err
	}
	faulty := err // a proof is drawn all the same
	j := p.first()
	if !sh.set {
		if j, err = p.named(o.rib); err != nil {
			return err
		}
	}
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
	p, err := a.ready(args[0])
	if err != nil {
		return err
	}
	all, err := p.lists(o)
	if err != nil {
		return err
	}
	tables := slices.DeleteFunc(all, func(t export.Table) bool { return o.table != "all" && t.ID != o.table })
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

// lists returns the lists that are asked for, and perhaps others: those of the set, or of the rib that is named.
func (p *project) lists(o *options) ([]export.Table, error) {
	sheets := o.table == "all" || slices.Contains(cutTables, o.table)
	if len(p.jobs) > 1 && o.rib == "" {
		if all := p.tables(inSet, sheets); o.table == "all" || slices.ContainsFunc(all, func(t export.Table) bool { return t.ID == o.table }) {
			return all, nil
		}
	}
	j, err := p.named(o.rib)
	if err != nil {
		return nil, err
	}
	if len(p.jobs) > 1 {
		return j.tables(ofRib, sheets), nil
	}
	return append(j.tables(inSet|ofRib, sheets), p.wingTables()...), nil
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
