package shop

import (
	"fmt"
	"slices"
	"strings"

	"ribwright/export"
	"ribwright/geom"
	"ribwright/geom/rib"
	"ribwright/geom/ribfile"
)

// work lays out what is done to a rib, in its order.
func (w *travellerSheet) work() {
	n := 0
	step := func(words string) {
		n++
		w.step(n, words)
	}
	w.band("First face, in the jig")
	if hands := faceHands(w.r); len(hands) > 0 {
		step(strings.Join(hands, " "))
	}
	w.gluing(0)
	if w.r.StickPlies > 1 && len(w.r.Sticks) > 0 {
		step(fmt.Sprintf("Days before: glue the %d strips of each stick along their length, clamp them, and let them cure.", w.r.StickPlies))
	}
	if order := w.order(); len(order) > 0 {
		step("Lay in dry, each nose to tail: " + strings.Join(order, "; ") + ".")
	}
	step(w.mixWords(0) + " Wet both surfaces of every joint, and lay in again in the same order.")
	for _, words := range w.faceWords(0) {
		step(words)
	}
	step(w.outWords())
	if w.glued(1) {
		w.band("Second face")
		w.gluing(1)
		second := w.faceWords(1)
		step(w.mixWords(1) + " " + second[0])
		for _, words := range second[1:] {
			step(words)
		}
	}
	w.band("Joints, nose to tail")
	w.tickKey()
	w.joints()
	w.band("When it has cured")
	u := w.doc.Units
	w.blanks(blank{word: "Trimmed", tick: true}, blank{word: "Varnish kept off the faces still to be glued", tick: true},
		blank{word: "Mass", after: fmt.Sprintf("%s, planned %s", w.massUnit(), u.Mass(w.t.Mass.TotalG))})
	k := w.t.Coupon
	w.blanks(blank{word: "Sample joint broken", tick: true}, blank{word: "at", after: fmt.Sprintf("%s, should carry %s", w.forceUnit(), u.Force(k.LoadN))},
		blank{word: "wood on the face", after: fmt.Sprintf("%%, %s %% at least", decimal(100*k.WoodFailure, 0))})
	w.blanks(blank{word: "Signed"}, blank{word: "Note"})
}

// glued reports whether plates or a web are glued to a side of any rib: of right ribs, what is on the other face.
func (w lister) glued(side int) bool {
	return w.r.Covered(side) || w.r.Mirrored > 0 && w.r.Covered(1-side)
}

// faceWords says what is glued on as a rib's first or second side; where left and right ribs differ, of either.
func (w *travellerSheet) faceWords(side int) []string {
	hands := []string{""}
	if w.r.Mirrored > 0 {
		hands = []string{"Left rib: ", "Right rib: "}
	}
	which := [2]string{"first", "second"}[side]
	var out []string
	for i, hand := range hands {
		face := [2]int{side, 1 - side}[i]
		switch {
		case w.webbed(face):
			out = append(out, hand+initial(hand, "Web")+" of the "+which+" face: wet it and all the wood under it, lay it on its lines, and weight it down or clamp it between flat boards, all over its members. Tick it below.")
		case w.plated(face) && side == 1 && w.plated(0) && hand == "":
			out = append(out, "Plates of the second face, nose to tail, as the first: "+w.clampWords()+". Tick each below.")
		case w.plated(face):
			out = append(out, hand+initial(hand, "Plates")+" of the "+which+" face, nose to tail: wet plate and wood, centre the plate on its cross, "+w.clampWords()+". Tick each below.")
		}
	}
	return out
}

// initial is a word at the beginning of a sentence, or after what stands before it.
func initial(before, word string) string {
	if before == "" {
		return word
	}
	return strings.ToLower(word)
}

// plated reports whether any plate is on the face.
func (w lister) plated(face int) bool {
	return slices.ContainsFunc(w.r.Gussets, func(g rib.Gusset) bool { return slices.Contains(g.On(), face) })
}

// webbed reports whether a web is on the face; then no plate is.
func (w lister) webbed(face int) bool { return slices.Contains(w.r.Web.On(), face) }

// gluing is what the log asks for of a side. What was planned stands behind the blanks.
func (w *travellerSheet) gluing(face int) {
	scale := Weighing{Scale: w.batches.Scale, Shows: w.doc.Scale.Shows}
	planned := func(part int) string {
		read := func(right bool) string {
			a, b := w.batches.Ratio.Split(w.t.Side(right, face).MixedG)
			return scale.Reading([2]float64{a, b}[part])
		}
		switch left, right := w.t.Side(false, face).MixedG, w.t.Side(true, face).MixedG; {
		case w.r.Mirrored == 0 || read(false) == read(true):
			return read(false)
		case left == 0:
			return read(true) + " right"
		case right == 0:
			return read(false) + " left"
		}
		return read(false) + " left, " + read(true) + " right"
	}
	unit := "g"
	if scale.Shows == ribfile.Inch {
		unit = "oz"
	}
	degrees := "°C"
	if w.inch {
		degrees = "°F"
	}
	temperature := w.doc.Units.Temperature(w.doc.Batch.Temperature)
	w.blanks(blank{word: "Date"}, blank{word: "Temperature", after: degrees + ", planned " + temperature}, blank{word: "Humidity", after: "%"})
	w.blanks(blank{word: "Batch"}, blank{word: "A", after: unit + ", planned " + planned(0)}, blank{word: "B", after: unit + ", planned " + planned(1)})
}

// mixWords says how the batches of a face are weighed: the reading that most of them have, and the others where they are few.
func (w *travellerSheet) mixWords(face int) string {
	const few = 3
	scale := Weighing{Scale: w.batches.Scale, Shows: w.doc.Scale.Shows}
	var reads []string
	cups := map[string][]string{}
	for _, b := range w.batches.Batches {
		for _, s := range b.Sides {
			if s.Entry != w.entry || s.Face != face {
				continue
			}
			r := "A to " + scale.Reading(b.Card.AG) + ", then B to " + scale.Reading(b.Card.TotalG)
			if cups[r] == nil {
				reads = append(reads, r)
			}
			if number := fmt.Sprint(b.Number); !slices.Contains(cups[r], number) {
				cups[r] = append(cups[r], number)
			}
		}
	}
	switch {
	case len(reads) == 0:
		return "Mix the batch."
	case len(reads) > few:
		return "Mix the batch as the list of batches says."
	case len(reads) == 1:
		return "Mix the batch, by the scale " + reads[0] + "."
	}
	for i, r := range reads {
		reads[i] = r + " (" + plural(len(cups[r]), "batch ", "batches ") + runs(cups[r]) + ")"
	}
	return "Mix the batch, by the scale " + strings.Join(reads, ", or ") + "."
}

// runs lists a few names, of many the first and the last.
func runs(names []string) string {
	const most = 4
	if len(names) > most {
		return names[0] + ", " + names[1] + " … " + names[len(names)-1]
	}
	return strings.Join(names, ", ")
}

// clampWords says how plates are held.
func (w lister) clampWords() string {
	switch w.doc.Fastener.Kind {
	case "staple":
		return "staple it"
	case "nail":
		return "nail it"
	}
	return "clamp it"
}

// outWords says when the rib comes out of the jig.
func (w lister) outWords() string {
	s := w.doc.Session
	if s.InJig == "remove" {
		out := fmt.Sprintf("Out of the jig at once, held by its %ss: wipe squeeze-out off, turn the rib over, and keep it flat.", w.doc.Fastener.Kind)
		if w.r.Mirrored > 0 && !w.r.Covered(1) {
			out += " A right rib stays in it until its joints have cured."
		}
		return out
	}
	return fmt.Sprintf("Out of the jig when it has cured, %s at least: scrape squeeze-out off, and turn the rib over.", ribfile.Duration(s.Cure))
}

func (w lister) massUnit() string {
	if w.inch {
		return "oz"
	}
	return "g"
}

func (w lister) forceUnit() string {
	if w.inch {
		return "lbf"
	}
	return "N"
}

func (w *travellerSheet) cautions() []caution {
	var out []caution
	for _, s := range []string{
		glueCautions[0] + " Gloves on; guard your eyes.",
		"Break a sample joint of each batch: it must fail in the wood. If it does not, build nothing of that batch in.",
		"Plane or scrape what is glued, never sand it. Varnish on a face still to be glued spoils the joint: mask it.",
		"The picture is reduced. Follow the approved plans; the builder's inspector, the authority and licensed practice decide.",
	} {
		out = append(out, caution{s, false})
	}
	return out
}

// Widths of the table of joints, mm: of the column of names, and the least of a column of boxes.
const jointName, leastTick = 17.5, 7.0

// The columns of the table of joints, by face.
const (
	tickWet = iota
	tickOut
	tickCentred
	tickFastened
)

// ticks lists the columns: without fasteners there is no box for them.
func (w lister) ticks() []string {
	out := []string{"W", "S", "C"}
	if w.doc.Fastener.Kind != "none" {
		return append(out, "N")
	}
	return out
}

func (w *travellerSheet) tickKey() {
	words := "W wetted on both sides; S squeeze-out seen all round; C plate centred (web on its lines)"
	if len(w.r.Web.On()) == 0 {
		words = strings.TrimSuffix(words, " (web on its lines)")
	}
	if w.doc.Fastener.Kind != "none" {
		words += fmt.Sprintf("; N %ss driven, their number beside the box", w.doc.Fastener.Kind)
	}
	lines := wrap(words+".", small, w.wide, false)
	w.strip(float64(noteStep*float64(len(lines)))+0.5, func(c *canvas) {
		for i, l := range lines {
			c.write(layerTable, l, geom.Pt{Y: float64(noteStep*float64(len(lines)-1-i)) + 1.5}, small, export.Left, false)
		}
	})
}

// joints is the table of joints, in as many columns of rows as the sheet is wide enough for, each read downward; over pages
// where it must be.
func (w *travellerSheet) joints() {
	const leastRows = 4
	leastBlock := jointName + float64(leastTick*float64(len(w.ticks())*2)) // room for a number beside a box in every column
	rows := w.rows()
	if len(w.r.Web.On()) > 0 {
		rows = append(rows, travellerRow{name: webID, plate: -1, web: true})
	}
	across := max(1, int((w.wide+columnsGap)/(leastBlock+columnsGap)))
	block := (w.wide - float64(columnsGap*float64(across-1))) / float64(across)
	head := 2*noteStep + 0.8
	for len(rows) > 0 {
		down := (len(rows) + across - 1) / across
		room := int((w.y - w.floor - head) / tickRow)
		if room < min(leastRows, down) { // the strip goes onto the next page
			room = int((w.page.H - w.page.Margin - numberHigh - w.floor - head) / tickRow)
		}
		down = max(1, min(down, room))
		part := rows[:min(len(rows), down*across)]
		rows = rows[len(part):]
		w.strip(head+float64(tickRow*float64(down)), func(c *canvas) {
			for k := 0; k*down < len(part); k++ {
				own := &canvas{}
				w.jointBlock(own, part[k*down:min(len(part), (k+1)*down)], block, float64(tickRow*float64(down)))
				c.items = append(c.items, moved(own.items, geom.Pt{X: float64(k) * (block + columnsGap)})...)
			}
		})
	}
}

// jointBlock draws one column of rows, its rows' upper edge at the height given.
func (w *travellerSheet) jointBlock(c *canvas, rows []travellerRow, wide, top float64) {
	ticks := w.ticks()
	faces := []int{0}
	if w.plated(1) || w.webbed(1) {
		faces = append(faces, 1)
	}
	column := (wide - jointName) / float64(2*len(ticks))
	for _, face := range faces {
		x := jointName + float64(float64(face*len(ticks))*column)
		name := [2]string{"first face", "second face"}[face]
		if w.r.Mirrored > 0 {
			name = "left: " + name
		}
		c.write(layerTable, name, geom.Pt{X: x + 0.5, Y: top + noteStep + 1}, small, export.Left, true)
		for i, t := range ticks {
			c.write(layerTable, t, geom.Pt{X: x + float64(float64(i)*column) + tickBox/2 + 0.5, Y: top + 1}, small, export.Center, false)
		}
	}
	c.line(layerTable, geom.Pt{Y: top}, geom.Pt{X: wide, Y: top})
	for k, row := range rows {
		y := top - float64(tickRow*float64(k+1))
		c.line(layerMatch, geom.Pt{Y: y}, geom.Pt{X: wide, Y: y})
		high := float64(small)
		if textWidth(row.name, medium, true) <= jointName-2 {
			high = medium
		}
		c.write(layerName, row.name, geom.Pt{Y: y + float64((tickRow-high)/2)}, high, export.Left, true)
		for _, face := range faces {
			for i := range ticks {
				x := jointName + float64(float64(face*len(ticks)+i)*column) + 0.5
				w.box(c, row, face, i, geom.Pt{X: x, Y: y + (tickRow-tickBox)/2})
			}
		}
	}
}

// box draws one box of the table, where there is something to tick.
func (w *travellerSheet) box(c *canvas, row travellerRow, face, tick int, at geom.Pt) {
	on := row.plate >= 0 && slices.Contains(w.r.Gussets[row.plate].On(), face)
	if row.web && (!w.webbed(face) || tick == tickFastened) {
		return
	}
	if !row.web && !on && (face == 1 || tick > tickOut) { // the stick ends are glued with the first face
		return
	}
	if tick == tickFastened {
		n := w.t.Fasteners.Count(row.plate, face)
		if n == 0 {
			c.write(layerTable, "–", at.Add(geom.Pt{X: tickBox / 2, Y: (tickBox - small) / 2}), small, export.Center, false)
			return
		}
		c.write(layerTable, fmt.Sprint(n), at.Add(geom.Pt{X: tickBox + 1, Y: (tickBox - small) / 2}), small, export.Left, false)
	}
	c.tick(at)
}
