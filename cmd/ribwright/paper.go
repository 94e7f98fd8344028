package main

import (
	"errors"
	"fmt"

	"github.com/spf13/pflag"

	"ribwright/geom/ribfile"
)

func paperFlags(f *pflag.FlagSet, o *options) {
	const file = " (default: as the rib file says, else "
	f.StringVar(&o.paper, "paper", "", "paper of the tiles: "+ribfile.PaperNames+", a size such as 330x480 or 13x19in, or a roll such as \"roll 914\" or \"roll 36in\""+file+"A4)")
	f.StringVar(&o.turn, "turn", "", "how the paper lies: portrait, landscape, or auto for the fewest sheets"+file+"auto)")
	f.StringVar(&o.margin, "margin", "", "what the printer leaves blank: one length, or four for left, right, top, bottom of the upright paper: 5,5,12,12"+file+"10 mm)")
	f.StringVar(&o.overlap, "overlap", "", "how far neighbouring tiles overlap"+file+"12 mm)")
	printedFlag(f, o)
}

func printedFlag(f *pflag.FlagSet, o *options) {
	f.StringVar(&o.printed, "printed", "", "what the check square measured across and up on a print without correction, such as 99.2x101.5 (or 3.97x4.06in): PDFs are corrected by it; 100x100: no correction (default: as the rib file says, else not measured)")
}

// checkPaper tells mistakes in the paper's flags, and doubts about them.
func (a *app) checkPaper(o *options) error {
	p, err := o.paperOf(nil)
	if err != nil {
		return err
	}
	if o.printed != "" && o.printed != "100x100" { // so a correction in the rib file is put aside
		if message, fix := p.Printed.Doubt(); message != "" {
			fmt.Fprintf(a.err, "note: --printed: %s %s\n", message, fix)
		}
	}
	return nil
}

// paperOf returns the paper of the rib file with what the flags say instead. Before the rib file is read, for
// a nil doc, it tells mistakes in the flags. Numbers without a unit are millimetres.
func (o *options) paperOf(doc *ribfile.Doc) (ribfile.Paper, error) {
	p, _ := ribfile.ParsePaper("A4", ribfile.MM)
	if doc != nil {
		p = doc.Paper
	}
	var errs []error
	for _, f := range []struct {
		name, text string
		read       func(s string) error
	}{
		{"paper", o.paper, func(s string) error {
			q, err := ribfile.ParsePaper(s, ribfile.MM)
			p.Size, p.W, p.H = q.Size, q.W, q.H
			return err
		}},
		{"turn", o.turn, func(s string) error {
			p.Turn = s
			if s != "auto" && s != "portrait" && s != "landscape" {
				return fmt.Errorf("there is no %q: choose auto, portrait or landscape", s)
			}
			return nil
		}},
		{"margin", o.margin, func(s string) (err error) { p.Margin, err = ribfile.ParseMargins(s, ribfile.MM); return err }},
		{"overlap", o.overlap, func(s string) (err error) { p.Overlap, err = ribfile.ParseOverlap(s, ribfile.MM); return err }},
		{"printed", o.printed, func(s string) (err error) { p.Printed, err = ribfile.ParsePrinted(s); return err }},
	} {
		if f.text == "" {
			continue
		}
		if err := f.read(f.text); err != nil {
			errs = append(errs, fmt.Errorf("--%s: %w", f.name, err))
		}
	}
	if o.paper != "" && o.turn == "" && p.H == 0 {
		p.Turn = "auto" // the file's turn is for the file's paper
	}
	if err := p.TurnFault(); err != nil && (o.turn != "" && (o.paper != "" || doc != nil)) {
		errs = append(errs, err)
	}
	if err := errors.Join(errs...); err != nil {
		return p, usageError{err.Error()}
	}
	return p, nil
}
