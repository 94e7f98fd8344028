package dxf

import (
	"math"

	"ribwright/export"
)

// colour returns the number (group 62) of a pen's colour: that of its name, of the number that comes nearest
// to it, or of a grey: 7 is black on white paper, 8 dark grey, 9 light.
func colour(pen export.Pen) int {
	if n := pen.Color.Number(); n > 0 {
		return n
	}
	if rgb, ok := pen.Color.RGB(); ok {
		return nearest(rgb)
	}
	switch {
	case pen.Gray < 0.3:
		return 7
	case pen.Gray < 0.65:
		return 8
	}
	return 9
}

// nearest returns the number whose colour is nearest, by the parts of red, green and blue.
func nearest(rgb [3]uint8) int {
	best, least := 7, math.Inf(1)
	for n := 1; n < 250; n++ { // readers disagree about the greys above
		d := 0.0
		for i, v := range palette(n) {
			e := v - float64(rgb[i])
			if n == 7 {
				e = float64(rgb[i]) // black on paper
			}
			d += float64(e * e)
		}
		if d < least {
			best, least = n, d
		}
	}
	return best
}

// shades are the five levels of each hue among the numbers 10 to 249, as shares of full light.
var shades = [5]float64{1, 0.65, 0.5, 0.3, 0.15}

// palette returns the colour that a number stands for, parts of 0 to 255. From 10 on the numbers go round
// the circle of hues in steps of 15°, ten to a hue: five shades, each full and half mixed with white.
func palette(n int) [3]float64 {
	switch {
	case n < 7:
		rgb, _ := export.Color(export.ColorNames[n-1]).RGB()
		return [3]float64{float64(rgb[0]), float64(rgb[1]), float64(rgb[2])}
	case n == 7:
		return [3]float64{255, 255, 255}
	case n == 8:
		return [3]float64{128, 128, 128}
	case n == 9:
		return [3]float64{192, 192, 192}
	}
	hue, light := float64(float64(n/10-1)/4), 255*shades[n%10/2] // in sixths of the circle
	low := 0.0
	if n%2 == 1 {
		low = 0.5
	}
	var out [3]float64
	for i := range out {
		// How far the hue stands from this part's own: red at 0, green at 2, blue at 4.
		away := math.Abs(math.Remainder(hue-float64(2*i), 6))
		part := min(max(2-away, 0), 1)
		out[i] = math.Floor(light * (low + float64((1-low)*part)))
	}
	return out
}
