package main

import (
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/spf13/pflag"

	"ribwright/export/shop"
	"ribwright/geom/finding"
	"ribwright/geom/ribfile"
	"ribwright/geom/riblog"
)

// logFlags are the flags of a line of the log.
type logFlags struct {
	line   map[string]*string // by the log's columns
	side   string
	inches bool
}

// flagsOfLog adds the flags of a line, named as the log's columns, and those of the summary.
func flagsOfLog(f *pflag.FlagSet, o *options) {
	o.log.line = map[string]*string{}
	for _, c := range []struct{ column, about string }{
		{"rib", "add: the number of the rib"},
		{"kind", "add: its kind, where the rib file has several"},
		{"date", "add: the date, as you write it"},
		{"batch", "add: the batch of adhesive: of the rib's first side, or that the line is about"},
		{"a", "add: part A as weighed, such as 5.6g or 0.2oz; a bare number is in the column's unit"},
		{"b", "add: part B"},
		{"second batch", "add: the batch of the second side"},
		{"second a", "add: its part A"},
		{"second b", "add: its part B"},
		{"temperature", "add: where it was glued, such as 21C or 70F"},
		{"humidity", "add: of the air, in percent"},
		{"mass", "add: of the finished rib"},
		{"coupon load", "add: at which the batch's sample joint broke, such as 1200N or 270lbf"},
		{"wood failure", "add: how much of the broken face was wood, in percent"},
		{"signed", "add: who did it"},
		{"note", "add: a remark"},
	} {
		o.log.line[c.column] = f.String(strings.ReplaceAll(c.column, " ", "-"), "", c.about)
	}
	f.StringVar(&o.log.side, "side", "", "add: first or second: which side --batch, --a and --b are of (default: first)")
	f.BoolVar(&o.log.inches, "inches", false, "add, new: a new log has masses in oz, temperatures in F, loads in lbf (default: g, C, N)")
	f.StringVar(&o.format, "format", "", "the summary as md, csv or json (default: md)")
	f.StringVarP(&o.picture, "output", "o", "", "draw masses and adhesive, rib by rib, to this file: .pdf, .svg or .png")
}

// log adds a line to the log of a build, begins a log, or sums one up. A sample joint that failed gives the exit status 1.
func (a *app) log(args []string, o *options) error {
	switch args[0] {
	case "add":
		return a.logAdd(args[1:], o)
	case "new":
		return a.logNew(args[1:], o)
	}
	for _, name := range riblog.Columns() {
		if *o.log.line[name] != "" {
			return usage("log: --%s is for \"log add LOG.csv\"", strings.ReplaceAll(name, " ", "-"))
		}
	}
	return a.logSum(args, o)
}

// logUnits are the units of a new log.
func (o *options) logUnits() ribfile.Units {
	if o.log.inches {
		return ribfile.Inch
	}
	return ribfile.MM
}

// logNew writes a log with nothing but its headings.
func (a *app) logNew(args []string, o *options) error {
	if len(args) != 1 {
		return usage("log new takes LOG.csv")
	}
	if _, err := os.Stat(args[0]); err == nil {
		return usage("%s is there already: add to it, or choose another name", args[0])
	}
	if err := a.writeOne(args[0], "", func(w io.Writer) error { _, err := w.Write(riblog.Header(o.logUnits())); return err }); err != nil || args[0] == "-" {
		return err
	}
	_, err := fmt.Fprintf(a.out, "%s written: one line a rib, and one for the sample joint of each batch. Add with: ribwright log add %s --rib 1 ...\n", args[0], args[0])
	return err
}

// given gathers the line's flags by column; --side second moves the batch and its parts to the second side.
func (o *options) given() (map[string]string, error) {
	out := map[string]string{}
	for name, v := range o.log.line {
		out[name] = *v
	}
	switch o.log.side {
	case "", "first":
	case "second":
		for _, name := range []string{"batch", "a", "b"} {
			if out["second "+name] != "" {
				return nil, usage("log add: with --side second, --%s is the second side's: leave --second-%s away", name, name)
			}
			out["second "+name], out[name] = out[name], ""
		}
	default:
		return nil, usage("log add: --side is first or second")
	}
	return out, nil
}

// logAdd appends a line, and says so when it is on the disk.
func (a *app) logAdd(args []string, o *options) error {
	if len(args) != 1 || args[0] == "-" {
		return usage("log add takes LOG.csv")
	}
	if o.picture != "" || o.format != "" {
		return usage("log add: --output and --format are for the summary, \"log FILE LOG.csv\"")
	}
	given, err := o.given()
	if err != nil {
		return err
	}
	done, err := appendLog(args[0], func(data []byte) (riblog.Line, error) {
		line, found := riblog.Append(args[0], data, given, o.logUnits())
		for _, f := range found {
			fmt.Fprintln(a.err, f)
		}
		if finding.HasError(found) {
			fmt.Fprintln(a.err, "no line is added")
			return riblog.Line{}, errFound
		}
		return line, nil
	})
	if err != nil {
		return err
	}
	if done.torn != "" {
		fmt.Fprintf(a.err, "note: the last line of %s had no end, as after a power cut: it was set aside in %s. Look whether it must be written again.\n", args[0], done.torn)
	}
	_, err = fmt.Fprintf(a.out, "%s: line %d is on the disk: %s\n", args[0], done.line.Number, strings.Join(done.line.Says, ", "))
	return err
}

// logSum prints what a log tells, held against the rib file.
func (a *app) logSum(args []string, o *options) error {
	if len(args) != 2 {
		return usage("log takes FILE LOG.csv, or \"add\" or \"new\" and LOG.csv")
	}
	format, err := o.chooseListFormat()
	if err != nil {
		return err
	}
	plotFormat, err := pictureFormat(o.picture, "pdf", "svg", "png")
	if err != nil {
		return err
	}
	data, err := readNamed(args[1])
	if err != nil {
		return fmt.Errorf("the log cannot be read: %w", err)
	}
	p, err := a.ready(args[0])
	if err != nil {
		return err
	}
	l, found := riblog.Read(args[1], data, p.doc.Units)
	if err := a.tell(found); err != nil {
		return err
	}
	sum := riblog.Sum(l, shop.LogPlan(p.set(), p.takes()))
	for _, f := range sum.Found {
		fmt.Fprintln(a.err, f)
	}
	if o.picture != "" {
		if there, err := os.Stat(o.picture); err == nil {
			if in, err := os.Stat(args[1]); err == nil && os.SameFile(there, in) {
				return usage("%s is the log itself: name another file for the plot", o.picture)
			}
		}
		if err := a.writeOne(o.picture, args[0], drawing(shop.Dressed(shop.LogPlot(sum, p.doc), p.doc), plotFormat, p.doc.Drawing.DXFUnits)); err != nil {
			return err
		}
	}
	if err := a.writeOne("-", "", tables(format, shop.LogTables(sum, p.doc)...)); err != nil {
		return err
	}
	if finding.HasError(sum.Found) {
		return errFound
	}
	return nil
}

// chooseListFormat returns the format of lists on the standard output.
func (o *options) chooseListFormat() (string, error) {
	return (&options{out: "-", format: o.format}).chooseFormat("md", "md", "csv", "json")
}
