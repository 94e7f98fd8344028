package dxf

import (
	"math"
	"strings"

	"ribwright/export"
	"ribwright/geom"
)

// What stands around the entities: header, tables, blocks, objects. This is what a strict reader asks for
// in version AC1015 (DXF Reference, R2000), and no more.

// The handles of the frame. Layers and dashes come after dashBase, entities from firstFree on: a drawing
// has far fewer layers than there is room for.
const (
	vportTable   = 0x8
	ltypeTable   = 0x5
	layerTable   = 0x2
	styleTable   = 0x3
	viewTable    = 0x6
	ucsTable     = 0x7
	appidTable   = 0x9
	dimTable     = 0xA
	recordTable  = 0x1
	rootDict     = 0xC
	groupDict    = 0xD
	plotDict     = 0xE
	plotNormal   = 0xF
	layer0       = 0x10
	styleText    = 0x11
	appidAcad    = 0x12
	ltByBlock    = 0x14
	ltByLayer    = 0x15
	ltContinuous = 0x16
	layoutDict   = 0x1A
	paperRecord  = 0x1B
	paperBegin   = 0x1C
	paperEnd     = 0x1D
	paperLayout  = 0x1E
	modelRecord  = 0x1F
	modelBegin   = 0x20
	modelEnd     = 0x21
	modelLayout  = 0x22
	dimStandard  = 0x27
	vportActive  = 0x29
	dashBase     = 0x100   // dashes of layer i: dashBase + 2i, the layer itself one above
	firstFree    = 0x10000 // of entities
)

func (f *file) header(s export.Sheet) {
	seen := f.survey(s)
	f.str(999, "Ribwright")
	f.str(0, "SECTION")
	f.str(2, "HEADER")
	variable := func(name string) { f.str(9, name) }
	variable("$ACADVER")
	f.str(1, f.version())
	variable("$DWGCODEPAGE")
	f.str(3, "ANSI_1252")
	variable("$HANDSEED")
	f.hex(5, firstFree+seen.entities)
	variable("$INSUNITS")
	f.int(70, f.unit.insunit)
	variable("$MEASUREMENT")
	f.int(70, f.unit.metric)
	variable("$LUNITS") // decimal
	f.int(70, 2)
	variable("$LTSCALE")
	f.num(40, 1)
	variable("$EXTMIN")
	f.at(10, seen.box.Min, false)
	variable("$EXTMAX")
	f.at(10, seen.box.Max, false)
	variable("$LIMMIN")
	f.at(10, geom.Pt{}, true)
	variable("$LIMMAX")
	f.at(10, geom.Pt{X: s.W, Y: s.H}, true)
	f.str(0, "ENDSEC")
}

// version names the file's: that of 2000, or, with colours of red, green and blue, that of 2004.
func (f *file) version() string {
	if f.trueColor {
		return "AC1018"
	}
	return "AC1015"
}

func (f *file) classes() {
	f.str(0, "SECTION")
	f.str(2, "CLASSES")
	f.str(0, "ENDSEC")
}

// table writes a table's head, its n entries and its end.
func (f *file) table(name string, handle, n int, entries func()) {
	f.str(0, "TABLE")
	f.str(2, name)
	f.hex(5, handle)
	f.hex(330, 0)
	f.str(100, "AcDbSymbolTable")
	f.int(70, n)
	if name == "DIMSTYLE" {
		f.str(100, "AcDbDimStyleTable")
	}
	entries()
	f.str(0, "ENDTAB")
}

// record writes what every entry of a table begins with; a dimension style keeps its handle under 105.
func (f *file) record(kind string, handle, table int, class, name string) {
	f.str(0, kind)
	if kind == "DIMSTYLE" {
		f.hex(105, handle)
	} else {
		f.hex(5, handle)
	}
	f.hex(330, table)
	f.str(100, "AcDbSymbolTableRecord")
	f.str(100, class)
	f.str(2, name)
}

func (f *file) tables(d export.Drawing) {
	f.str(0, "SECTION")
	f.str(2, "TABLES")
	f.table("VPORT", vportTable, 1, f.vport)
	dashed := 0
	for _, l := range d.Layers {
		if len(l.Pen.Dash) > 0 {
			dashed++
		}
	}
	f.table("LTYPE", ltypeTable, 3+dashed, func() { f.lineTypes(d.Layers) })
	f.table("LAYER", layerTable, 1+len(d.Layers), func() { f.layers(d.Layers) })
	f.table("STYLE", styleTable, 1, func() {
		f.record("STYLE", styleText, styleTable, "AcDbTextStyleTableRecord", "Standard")
		f.int(70, 0)
		f.num(40, 0) // no fixed height
		f.num(41, 1)
		f.num(50, 0)
		f.int(71, 0)
		f.num(42, 2.5)
		f.str(3, "txt")
		f.str(4, "")
	})
	f.table("VIEW", viewTable, 0, func() {})
	f.table("UCS", ucsTable, 0, func() {})
	f.table("APPID", appidTable, 1, func() {
		f.record("APPID", appidAcad, appidTable, "AcDbRegAppTableRecord", "ACAD")
		f.int(70, 0)
	})
	f.table("DIMSTYLE", dimTable, 1, func() {
		f.record("DIMSTYLE", dimStandard, dimTable, "AcDbDimStyleTableRecord", "Standard")
		f.int(70, 0)
	})
	f.table("BLOCK_RECORD", recordTable, 2, func() {
		f.record("BLOCK_RECORD", modelRecord, recordTable, "AcDbBlockTableRecord", "*Model_Space")
		f.hex(340, modelLayout)
		f.record("BLOCK_RECORD", paperRecord, recordTable, "AcDbBlockTableRecord", "*Paper_Space")
		f.hex(340, paperLayout)
	})
	f.str(0, "ENDSEC")
}

func (f *file) vport() {
	f.record("VPORT", vportActive, vportTable, "AcDbViewportTableRecord", "*Active")
	f.int(70, 0)
	f.at(10, geom.Pt{}, true)           // lower left corner of the screen
	f.at(11, geom.Pt{X: 1, Y: 1}, true) // upper right
	f.at(12, geom.Pt{X: 150 / f.unit.mm, Y: 100 / f.unit.mm}, true)
	f.num(40, 300/f.unit.mm) // height of the view
	f.num(41, 1.5)
}

func (f *file) lineTypes(layers []export.Layer) {
	plain := func(handle int, name, about string) {
		f.record("LTYPE", handle, ltypeTable, "AcDbLinetypeTableRecord", name)
		f.int(70, 0)
		f.str(3, about)
		f.int(72, 65)
		f.int(73, 0)
		f.num(40, 0)
	}
	plain(ltByBlock, "ByBlock", "")
	plain(ltByLayer, "ByLayer", "")
	plain(ltContinuous, "Continuous", "Solid line")
	for i, l := range layers {
		if len(l.Pen.Dash) > 0 {
			f.dashes(dashBase+2*i, l)
		}
	}
}

// dashes writes a layer's dashes: positive lengths are drawn, negative ones left out. An odd count is
// gone through twice, as a page does.
func (f *file) dashes(handle int, l export.Layer) {
	dash := l.Pen.Dash
	if len(dash)%2 == 1 {
		dash = append(append([]float64(nil), dash...), dash...)
	}
	sum := 0.0
	for _, v := range dash {
		sum += v
	}
	f.record("LTYPE", handle, ltypeTable, "AcDbLinetypeTableRecord", dashName(l))
	f.int(70, 0)
	f.str(3, "")
	f.int(72, 65)
	f.int(73, len(dash))
	f.num(40, sum)
	for i, v := range dash {
		if i%2 == 1 {
			v = -v
		}
		f.num(49, v)
		f.int(74, 0)
	}
}

func dashName(l export.Layer) string { return "DASHES-" + strings.ToUpper(l.ID) }

func (f *file) layers(layers []export.Layer) {
	one := func(handle int, name, lineType string, pen export.Pen, weight int) {
		f.record("LAYER", handle, layerTable, "AcDbLayerTableRecord", name)
		f.int(70, 0)
		f.int(62, colour(pen))
		if rgb, ok := pen.Color.RGB(); ok && pen.Color.Number() == 0 {
			f.int(420, int(rgb[0])<<16|int(rgb[1])<<8|int(rgb[2]))
		}
		f.str(6, lineType)
		f.int(370, weight)
		f.hex(390, plotNormal)
	}
	one(layer0, "0", "Continuous", export.Pen{}, -3) // −3: the reader's usual width
	for i, l := range layers {
		lineType := "Continuous"
		if len(l.Pen.Dash) > 0 {
			lineType = dashName(l)
		}
		one(dashBase+2*i+1, layerName(l), lineType, l.Pen, weight(l.Pen.Width))
	}
}

// weights are the widths of line that DXF knows, in 1/100 mm (DXF Reference, group 370).
var weights = [...]int{0, 5, 9, 13, 15, 18, 20, 25, 30, 35, 40, 50, 53, 60, 70, 80, 90, 100, 106, 120, 140, 158, 200, 211}

func weight(mm float64) int {
	want, best := float64(100*mm), weights[0]
	for _, w := range weights {
		if math.Abs(float64(w)-want) < math.Abs(float64(best)-want) {
			best = w
		}
	}
	return best
}

// blocks writes the two spaces that every drawing has; what is drawn stands in the entities' section.
func (f *file) blocks() {
	f.str(0, "SECTION")
	f.str(2, "BLOCKS")
	block := func(name string, begin, end, record int, paper bool) {
		space := func() {
			f.hex(330, record)
			f.str(100, "AcDbEntity")
			if paper {
				f.int(67, 1)
			}
			f.str(8, "0")
		}
		f.str(0, "BLOCK")
		f.hex(5, begin)
		space()
		f.str(100, "AcDbBlockBegin")
		f.str(2, name)
		f.int(70, 0)
		f.at(10, geom.Pt{}, false)
		f.str(3, name)
		f.str(1, "")
		f.str(0, "ENDBLK")
		f.hex(5, end)
		space()
		f.str(100, "AcDbBlockEnd")
	}
	block("*Model_Space", modelBegin, modelEnd, modelRecord, false)
	block("*Paper_Space", paperBegin, paperEnd, paperRecord, true)
	f.str(0, "ENDSEC")
}

func (f *file) objects() {
	f.str(0, "SECTION")
	f.str(2, "OBJECTS")
	f.dictionary(rootDict, 0, "ACAD_GROUP", groupDict, "ACAD_LAYOUT", layoutDict, "ACAD_PLOTSTYLENAME", plotDict)
	f.dictionary(groupDict, rootDict)
	f.dictionary(layoutDict, rootDict, "Model", modelLayout, "Layout1", paperLayout)
	f.str(0, "ACDBDICTIONARYWDFLT")
	f.hex(5, plotDict)
	f.hex(330, rootDict)
	f.str(100, "AcDbDictionary")
	f.int(281, 1)
	f.str(3, "Normal")
	f.hex(350, plotNormal)
	f.str(100, "AcDbDictionaryWithDefault")
	f.hex(340, plotNormal)
	f.str(0, "ACDBPLACEHOLDER")
	f.hex(5, plotNormal)
	f.hex(330, plotDict)
	f.layout(modelLayout, modelRecord, 0, "Model", 1024) // 1024: model space
	f.layout(paperLayout, paperRecord, 1, "Layout1", 0)
	f.str(0, "ENDSEC")
}

// dictionary writes names and the handles they stand for.
func (f *file) dictionary(handle, owner int, entries ...any) {
	f.str(0, "DICTIONARY")
	f.hex(5, handle)
	f.hex(330, owner)
	f.str(100, "AcDbDictionary")
	f.int(281, 1)
	for i := 0; i < len(entries); i += 2 {
		f.str(3, entries[i].(string))
		f.hex(350, entries[i+1].(int))
	}
}

func (f *file) layout(handle, record, order int, name string, kind int) {
	f.str(0, "LAYOUT")
	f.hex(5, handle)
	f.hex(330, layoutDict)
	f.str(100, "AcDbPlotSettings")
	f.str(1, "")
	f.int(70, kind)
	f.str(100, "AcDbLayout")
	f.str(1, name)
	f.int(70, 1)
	f.int(71, order)
	f.at(10, geom.Pt{}, true)
	f.at(11, geom.Pt{X: 420, Y: 297}, true)
	f.hex(330, record)
}
