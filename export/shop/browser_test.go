package shop_test

import (
	"bytes"
	"cmp"
	"fmt"
	"image"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"

	"ribwright/export"
	"ribwright/export/svg"
	"ribwright/geom"
	"ribwright/geom/outside"
)

// dotMM is a dot of a browser's page: 96 to the inch (CSS Values and Units 4, section 5.2).
const dotMM = 25.4 / 96

// block is the side of the squares, in dots, whose ink is compared: two programs shade the edge of a line differently,
// but put the same ink near a place.
const block = 8

// TestSVGInTwoPrograms draws the SVG files with chromium and with librsvg: the same picture, and in chromium's the
// check square is 100 mm.
func TestSVGInTwoPrograms(t *testing.T) {
	chromium, rsvg := outside.Need(t, "chromium"), outside.Need(t, "rsvg-convert")
	for _, name := range ribFiles[:2] {
		for what, d := range onePage(t, name) {
			t.Run(what+" of "+filepath.Base(name), func(t *testing.T) {
				var b bytes.Buffer
				if err := svg.Write(&b, d, 0); err != nil {
					t.Fatal(err)
				}
				file, s := outside.File(t, "d.svg", b.Bytes()), d.Sheets[0]
				w, h := int(math.Ceil(s.W/dotMM)), int(math.Ceil(s.H/dotMM))
				one := browse(t, chromium, file, w, h)
				outside.Run(t, rsvg, "-b", "white", "-o", file+".png", file)
				two := inkOf(picture(t, file+".png"))
				if one.w < w || two.w < w-1 || two.h < h-1 {
					t.Fatalf("pictures of %d × %d and %d × %d dots for a sheet of %d × %d", one.w, one.h, two.w, two.h, w, h)
				}
				worst, sum, n := compare(one, two)
				// A line that one of them left out would be its width times the block's side.
				thinnest := slices.MinFunc(d.Layers, func(a, b export.Layer) int { return cmp.Compare(a.Pen.Width, b.Pen.Width) })
				if worst > 0.95*thinnest.Pen.Width/dotMM*block || sum/n > 0.2 {
					t.Errorf("the two differ by %.2f dots of ink in a square of %d × %d at worst, %.4f on the average", worst, block, block, sum/n)
				}
				checkInBrowser(t, one, s)
			})
		}
	}
}

// browse returns what chromium shows of a file in a window of its own.
func browse(t *testing.T, chromium, file string, w, h int) inked {
	t.Helper()
	shot := file + ".shot.png"
	cmd := exec.Command(chromium, "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
		"--disable-component-update", "--disable-sync", "--user-data-dir="+t.TempDir(), "--hide-scrollbars", "--force-device-scale-factor=1",
		fmt.Sprintf("--window-size=%d,%d", max(w, 600), max(h, 400)), "--screenshot="+shot, "file://"+file)
	cmd.Env = append(os.Environ(), "HOME="+t.TempDir())
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	return inkOf(picture(t, shot))
}

// inked is how dark each dot of a picture is, 0 to 1.
type inked struct {
	w, h int
	ink  []float64
}

func inkOf(img image.Image) inked {
	b := img.Bounds()
	p := inked{b.Dx(), b.Dy(), make([]float64, b.Dx()*b.Dy())}
	for y := range p.h {
		for x := range p.w {
			r, g, bl, _ := img.At(b.Min.X+x, b.Min.Y+y).RGBA()
			p.ink[y*p.w+x] = 1 - float64(r+g+bl)/(3*0xffff)
		}
	}
	return p
}

// sum is the ink of a rectangle, in dots.
func (p inked) sum(x0, y0, x1, y1 int) float64 {
	s := 0.0
	for y := max(y0, 0); y < min(y1, p.h); y++ {
		for x := max(x0, 0); x < min(x1, p.w); x++ {
			s += p.ink[y*p.w+x]
		}
	}
	return s
}

// compare returns the greatest difference of ink in a block, the sum of all, and how many blocks there are.
func compare(a, b inked) (worst, sum, n float64) {
	for y := 0; y < min(a.h, b.h); y += block {
		for x := 0; x < min(a.w, b.w); x += block {
			d := math.Abs(a.sum(x, y, x+block, y+block) - b.sum(x, y, x+block, y+block))
			worst, sum, n = math.Max(worst, d), sum+d, n+1
		}
	}
	return worst, sum, n
}

// checkInBrowser measures the square of 100 mm: the middles of its lines' ink, half way along its sides.
func checkInBrowser(t *testing.T, p inked, s export.Sheet) {
	t.Helper()
	for _, it := range s.Parts[0].Items {
		if it.ID != "check-100mm" {
			continue
		}
		b := it.Path.Box()
		dot := func(q geom.Pt) (x, y int) { return int(q.X / dotMM), int((s.H - q.Y) / dotMM) }
		mid := func(q geom.Pt, upright bool) float64 {
			x, y := dot(q)
			at, all := 0.0, 0.0
			for k := -4; k <= 4; k++ {
				ink, place := p.sum(x-10, y+k, x+10, y+k+1), y+k
				if upright {
					ink, place = p.sum(x+k, y-10, x+k+1, y+10), x+k
				}
				at, all = at+float64(ink*(float64(place)+0.5)), all+ink
			}
			return at / all * dotMM
		}
		quarter := geom.Pt{X: b.W() / 4, Y: b.H() / 4} // clear of the label
		wide := mid(b.Max.Sub(geom.Pt{Y: quarter.Y}), true) - mid(b.Min.Add(geom.Pt{Y: 3 * quarter.Y}), true)
		high := mid(b.Min.Add(geom.Pt{X: quarter.X}), false) - mid(geom.Pt{X: b.Min.X + quarter.X, Y: b.Max.Y}, false)
		if math.Abs(wide-100) > 0.1 || math.Abs(high-100) > 0.1 {
			t.Errorf("the check square is %.3f × %.3f mm on the browser's page", wide, high)
		}
		return
	}
	t.Error("there is no check square")
}
