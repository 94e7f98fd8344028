package ribfile

import (
	"fmt"
	"slices"
	"strings"

	"ribwright/export"
)

// LayerIDs are the layers of the drawings, each named for its purpose: the keys of [layers]. A test of
// export/shop holds that its drawings use these and no others.
var LayerIDs = []string{
	"contour", "cap", "stick", "block", "spar", "void", "adjacent", "plate", "plate-far", "web", "mark", "axis", "station", "dimension",
	"name", "finding", "check", "jig-block", "jig-relief", "jig-board", "frame", "title", "legend", "caution", "match", "register",
	"map", "cut", "sheet", "hole", "fastener",
	"mean-line", "curvature", "suspect", "grid", "deviation", "over-tolerance", "trend",
}

// Layer is one entry of [layers]: what the builder's machine calls a layer, and its colour there. What the
// file leaves out is empty.
type Layer struct {
	Name  string
	Color string // one of export.ColorNames, or "#rrggbb"
}

const layerExample = `cut = { name = "CUT", color = "red" }, or cut = "CUT"`

func (r *reader) layers(t tab) {
	r.doc.Layers = map[string]Layer{}
	if t.v == nil {
		return
	}
	taken := map[string]string{} // names in capitals, and the layers that have them
	for _, id := range LayerIDs {
		taken[strings.ToUpper(id)] = id
	}
	for _, id := range t.v.names { // a layer that is renamed gives its own name up
		if v := t.get(id); v != nil && (v.kind == textKind || v.fields["name"] != nil) && taken[strings.ToUpper(id)] == id {
			delete(taken, strings.ToUpper(id))
		}
	}
	for _, id := range t.v.names {
		v := t.get(id)
		if v == nil || !slices.Contains(LayerIDs, id) {
			continue
		}
		var l Layer
		switch v.kind {
		case textKind:
			l.Name = r.layerName(t, id, v, taken)
		case tableKind:
			r.unknownKeys(v, "layers.*")
			one := tab{r, v, v.key}
			if name := one.get("name"); name != nil {
				l.Name = r.layerName(one, "name", name, taken)
			}
			l.Color = r.layerColor(one)
		default:
			t.wrongType(v, "a name in quotation marks, or a table of name and color", layerExample)
			continue
		}
		if l != (Layer{}) {
			r.doc.Layers[id] = l
		}
	}
}

// layerName reads a name that DXF takes (DXF Reference, symbol table names), and that no other layer has.
func (r *reader) layerName(t tab, key string, v *value, taken map[string]string) string {
	s, ok := t.text(key, "", `"CUT"`)
	if !ok {
		return ""
	}
	id := schemaLayer(v.key)
	upper := strings.ToUpper(s)
	switch at := strings.IndexAny(s, "<>/\\\":;?*|=`,"); {
	case at >= 0:
		r.tell(CodeLayerName, v.key, v.at, fmt.Sprintf("The name %s of layer %s has the sign %s, which a DXF file cannot hold.", quote(s), id, s[at:at+1]),
			"Write a name of letters, digits, blanks, '-' and '_'.")
	case s != export.ASCII(s):
		r.tell(CodeLayerName, v.key, v.at, fmt.Sprintf("The name %s of layer %s has a letter beyond plain English ones, which a DXF file of this kind cannot hold.", quote(s), id),
			"Write it with plain letters, such as "+quote(export.ASCII(s))+".")
	case s != strings.TrimSpace(s):
		r.tell(CodeLayerName, v.key, v.at, fmt.Sprintf("The name %s of layer %s begins or ends with a blank.", quote(s), id), "Take the blank away.")
	case upper == "0" || upper == "DEFPOINTS":
		r.tell(CodeLayerName, v.key, v.at, fmt.Sprintf("Every DXF file has a layer %s for other ends; layer %s cannot be called so.", s, id), "Write another name.")
	case taken[upper] != "":
		r.tell(CodeLayerDoubled, v.key, v.at, fmt.Sprintf("The name %s of layer %s is that of layer %s, too.", quote(s), id, taken[upper]),
			"Give each layer a name of its own; small and capital letters count as the same. Layers may share a colour.")
	default:
		taken[upper] = id
		return s
	}
	return ""
}

// schemaLayer is the layer that a key under [layers] is about.
func schemaLayer(key string) string {
	return strings.TrimSuffix(strings.TrimPrefix(key, "layers."), ".name")
}

func (r *reader) layerColor(t tab) string {
	s, ok := t.text("color", "", `color = "red"`)
	if !ok || s == "" {
		return ""
	}
	v := t.get("color")
	lower := strings.ToLower(s)
	_, known := export.Color(lower).RGB()
	switch {
	case lower == "white" || lower == "#ffffff":
		r.tell(CodeColor, v.key, v.at, "Lines in white are not seen on paper.", `Write "black": on a dark screen it is shown white.`)
		return ""
	case !known:
		fix := "Write " + choices(export.ColorNames) + `, or "#rrggbb" for others, such as "#ff8000".`
		if near := nearest(s, export.ColorNames); near != "" {
			fix = "Did you mean " + quote(near) + "? " + fix
		}
		r.tell(CodeColor, v.key, v.at, quote(s)+" is no colour that is known.", fix)
		return ""
	}
	return lower
}
