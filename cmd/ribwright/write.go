package main

import (
	"io"

	"ribwright/export"
	"ribwright/export/dxf"
	"ribwright/export/pdf"
	"ribwright/export/png"
	"ribwright/export/svg"
	"ribwright/geom/ribfile"
)

// drawing returns what writes a drawing in a format; units are those of a DXF file.
func drawing(d export.Drawing, format string, units ribfile.Units) func(io.Writer) error {
	return func(w io.Writer) error {
		switch format {
		case "svg":
			return svg.Write(w, d, 0)
		case "dxf":
			unit := dxf.Millimetre
			if units == ribfile.Inch {
				unit = dxf.Inch
			}
			return dxf.WriteIn(w, d, 0, unit)
		case "png":
			return png.Write(w, d, 0, dots(d.Sheets[0], pictureDots))
		}
		return pdf.Write(w, d)
	}
}
