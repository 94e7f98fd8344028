package main

import (
	"fmt"

	"ribwright/airfoils"
	"ribwright/export/shop"
	"ribwright/geom/ribfile"
)

// measure compares what a builder measured with the contour of a rib file. What is over the tolerance with
// nothing fitted gives the exit status 1.
func (a *app) measure(args []string, o *options) error {
	format, err := o.chooseFormat("md", "md", "csv", "json")
	if err != nil {
		return err
	}
	drawFormat, err := pictureFormat(o.picture, "pdf", "svg", "dxf", "png")
	if err != nil {
		return err
	}
	tolerance, hasUnit, err := ribfile.ParseLength(o.tolerance)
	if err != nil {
		return usage("--tolerance: %v", err)
	}
	data, err := readNamed(args[1])
	if err != nil {
		return fmt.Errorf("the measurements cannot be read: %w", err)
	}
	p, err := a.ready(args[0])
	if err != nil {
		return err
	}
	j, err := p.named(o.rib)
	if err != nil {
		return err
	}
	unit := 1.0
	if j.doc.Units == ribfile.Inch {
		unit = ribfile.MMPerInch
	}
	if !hasUnit {
		tolerance *= unit
	}
	if !(tolerance > 0) || tolerance > j.rib.Chord/10 {
		return usage("--tolerance %s: it must be more than 0 and at most a tenth of the chord", o.tolerance)
	}
	readings, found := airfoils.ReadMeasured(args[1], data, unit, j.rib.Chord)
	if err := a.tell(found); err != nil {
		return err
	}
	c := j.rib.Contour
	readings, found = airfoils.MeasuredDown(args[1], c.Upper, c.Lower, readings)
	if err := a.tell(found); err != nil {
		return err
	}
	m := shop.Measured{Comparison: airfoils.Compare(c.Upper, c.Lower, readings, o.axes),
		Title: j.doc.Title, Units: j.doc.Units, Chord: j.rib.Chord, Tolerance: tolerance}
	if o.picture != "" {
		if err := a.writeOne(o.picture, args[0], drawing(shop.Dressed(m.Drawing(c.Upper, c.Lower), j.doc), drawFormat, j.doc.Drawing.DXFUnits)); err != nil {
			return err
		}
	}
	if err := a.writeOne("-", "", tables(format, m.Table())); err != nil {
		return err
	}
	if over, _ := m.Over(); over > 0 {
		return errFound
	}
	return nil
}
