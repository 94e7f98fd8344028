package shop

import (
	"ribwright/export"
	"ribwright/geom/ribfile"
)

// Dressed returns a drawing with its layers named and coloured as the rib file's [layers] says.
func Dressed(d export.Drawing, doc *ribfile.Doc) export.Drawing {
	looks := make(map[string]export.Look, len(doc.Layers))
	for id, l := range doc.Layers {
		looks[id] = export.Look{Name: l.Name, Color: export.Color(l.Color)}
	}
	return d.Dressed(looks)
}
