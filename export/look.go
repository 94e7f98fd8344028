package export

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Color is the colour of a layer's lines as a builder writes it: one of ColorNames, or "#rrggbb". Empty,
// the lines have their pen's grey.
type Color string

// ColorNames are the colours that have a name: DXF's numbers 1 to 7 (DXF Reference, group 62), in their
// order. Number 7 is shown black on white paper and white on a dark screen.
var ColorNames = []string{"red", "yellow", "green", "cyan", "blue", "magenta", "black"}

var named = [][3]uint8{{255, 0, 0}, {255, 255, 0}, {0, 255, 0}, {0, 255, 255}, {0, 0, 255}, {255, 0, 255}, {0, 0, 0}}

// Number returns the DXF number of a colour that has a name, else 0.
func (c Color) Number() int { return 1 + slices.Index(ColorNames, string(c)) }

// RGB returns the parts of red, green and blue. ok is false for what is no colour, and for the empty one.
func (c Color) RGB() (rgb [3]uint8, ok bool) {
	if n := c.Number(); n > 0 {
		return named[n-1], true
	}
	hex, found := strings.CutPrefix(string(c), "#")
	v, err := strconv.ParseUint(hex, 16, 32)
	if !found || len(hex) != 6 || err != nil {
		return rgb, false
	}
	return [3]uint8{uint8(v >> 16), uint8(v >> 8), uint8(v)}, true
}

// RGB returns what the pen draws with: its colour, or its grey.
func (p Pen) RGB() [3]uint8 {
	if rgb, ok := p.Color.RGB(); ok {
		return rgb
	}
	g := uint8(math.Round(p.Gray * 255))
	return [3]uint8{g, g, g}
}

// Hex returns RGB as SVG writes it: "#ff0000".
func (p Pen) Hex() string {
	c := p.RGB()
	return fmt.Sprintf("#%02x%02x%02x", c[0], c[1], c[2])
}

// Look is how a builder's machine knows a layer. What is empty stays as the drawing has it.
type Look struct {
	Name  string
	Color Color
}

// Dressed returns the drawing with the layers' names and colours as given, by their IDs. Widths and dashes
// stay; IDs of layers that the drawing does not have are passed over.
func (d Drawing) Dressed(looks map[string]Look) Drawing {
	layers := slices.Clone(d.Layers)
	for i, l := range layers {
		look := looks[l.ID]
		if look.Name != "" {
			layers[i].Name = look.Name
		}
		if look.Color != "" {
			layers[i].Pen.Color = look.Color
		}
	}
	d.Layers = layers
	return d
}
