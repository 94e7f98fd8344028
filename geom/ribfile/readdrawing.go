package ribfile

// Drawing is [drawing]: what the title says beside the rib's own data, and how figures are written.
type Drawing struct {
	Owner, Number, Revision, DrawnBy, ApprovedBy string // fields of the title after ISO 7200; may be empty
	Inches                                       string // "fractions" (to 1/64) or "decimals"
	DXFUnits                                     Units  // of DXF files
}

func (r *reader) drawing(t tab) {
	d := &r.doc.Drawing
	d.Owner, _ = t.text("owner", "", `owner = "A. Builder"`)
	d.Number, _ = t.text("number", "", `number = "W-12"`)
	d.Revision, _ = t.text("revision", "", `revision = "B"`)
	d.DrawnBy, _ = t.text("drawn_by", "", `drawn_by = "A. Builder"`)
	d.ApprovedBy, _ = t.text("approved_by", "", `approved_by = "B. Inspector"`)
	d.Inches = t.choice("inches", "fractions", "fractions", "decimals")
	d.DXFUnits = Units(t.choice("dxf_units", string(MM), string(MM), string(Inch)))
}
