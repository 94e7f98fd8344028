package pdf

import (
	"bytes"
	"compress/zlib"
	"io"
	"math/rand/v2"
	"strings"
	"testing"

	"ribwright/export"
	"ribwright/export/internal/sample"
)

func unpacked(t testing.TB, b []byte) []byte {
	t.Helper()
	r, err := zlib.NewReader(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	out, err := io.ReadAll(r) // the checksum too
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// numbers is a text as pages hold it.
func numbers(r *rand.Rand, n int) []byte {
	var b []byte
	for len(b) < n {
		b = export.AppendNum(b, 1000*r.Float64(), r.IntN(5))
		b = append(b, []string{" ", " l\n", " m\n", " c\n", "\nS\n"}[r.IntN(5)]...)
	}
	return b[:n]
}

// TestDeflate packs texts of all kinds, and unpacks them with the standard library: short ones, blocks that are just full, one
// letter alone, noise, long matches and far ones, and counts that grow as Fibonacci's, whose best code has words that are too long.
func TestDeflate(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	noise := make([]byte, 200_000)
	for i := range noise {
		noise[i] = byte(r.Uint32())
	}
	fibonacci := []byte{}
	for c, a, b := byte(0), 1, 1; a < 50_000; c, a, b = c+1, b, a+b {
		fibonacci = append(fibonacci, bytes.Repeat([]byte{c}, a)...)
	}
	shuffled := bytes.Clone(fibonacci)
	r.Shuffle(len(shuffled), func(i, k int) { shuffled[i], shuffled[k] = shuffled[k], shuffled[i] })
	texts := [][]byte{nil, noise, fibonacci, shuffled, append(noise[:40_000:40_000], noise[:40_000]...), append(noise[:20_000:20_000], noise[:20_000]...)}
	for n := range 300 {
		texts = append(texts, numbers(r, n), noise[:n], bytes.Repeat([]byte{'a'}, n), []byte(strings.Repeat("0 1 l\n", n)))
	}
	for _, n := range []int{blockSize - 1, blockSize, blockSize + 1, 2 * blockSize, 300_000} {
		texts = append(texts, numbers(r, n), bytes.Repeat([]byte{0}, n))
	}
	var d deflater
	for _, want := range texts {
		packed := d.deflate(nil, want)
		if got := unpacked(t, packed); !bytes.Equal(got, want) {
			t.Fatalf("%d bytes, %.40q …: %d bytes come back", len(want), want, len(got))
		}
		var fresh deflater
		if !bytes.Equal(packed, fresh.deflate(nil, want)) {
			t.Errorf("%d bytes, %.40q …: what was packed before matters", len(want), want)
		}
	}
}

func FuzzDeflate(f *testing.F) {
	f.Add([]byte("0 0 m\n10 0 l\n10 10 l\n0 0 m\n10 0 l\n"), 3)
	f.Fuzz(func(t *testing.T, b []byte, times int) {
		b = bytes.Repeat(b, max(1, times%100))
		var d deflater
		if got := unpacked(t, d.deflate(nil, b)); !bytes.Equal(got, b) {
			t.Errorf("%d bytes come back of %d", len(got), len(b))
		}
	})
}

// TestDeflateIsSmall compares pages with what the standard library makes of them at its quickest.
func TestDeflateIsSmall(t *testing.T) {
	var d deflater
	for _, drawing := range []export.Drawing{sample.Drawing(), sample.Job()} {
		text := content(nil, drawing, drawing.Sheets[0], newTypefaces(drawing))
		var std bytes.Buffer
		z, _ := zlib.NewWriterLevel(&std, zlib.BestSpeed)
		_, _ = z.Write(text)
		_ = z.Close()
		if got := len(d.deflate(nil, text)); got > std.Len()*105/100 {
			t.Errorf("%s: %d bytes are packed into %d, want no more than %d", drawing.Title, len(text), got, std.Len())
		}
	}
}

func BenchmarkDeflate(b *testing.B) {
	text := numbers(rand.New(rand.NewPCG(1, 2)), 300_000)
	b.SetBytes(int64(len(text)))
	var d deflater
	var out []byte
	for b.Loop() {
		out = d.deflate(out[:0], text)
	}
}
