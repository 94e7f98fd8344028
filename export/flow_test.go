package export_test

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"ribwright/export"
)

// pieces keeps what it is handed, and how much at once.
type pieces struct {
	bytes.Buffer
	longest, n int
	fail       error // of the second piece
}

func (p *pieces) Write(b []byte) (int, error) {
	p.n, p.longest = p.n+1, max(p.longest, len(b))
	if p.fail != nil && p.n == 2 {
		return 0, p.fail
	}
	return p.Buffer.Write(b)
}

// lines writes a megabyte.
func lines(f *export.Flow, b []byte) []byte {
	for range 1 << 17 {
		b = f.Pass(append(b, "7 bytes\n"...))
	}
	return b
}

func TestFlow(t *testing.T) {
	p := &pieces{}
	sent := 0
	err := export.WriteFlow(p, func(f *export.Flow, b []byte) []byte {
		b = lines(f, b)
		sent = f.Sent() + len(b)
		return b
	})
	if want := strings.Repeat("7 bytes\n", 1<<17); err != nil || p.String() != want || sent != len(want) {
		t.Errorf("%v; %d bytes came, %d were sent, want %d", err, p.Len(), sent, len(want))
	}
	if p.longest > 64<<10 || p.n > 30 {
		t.Errorf("%d pieces of up to %d bytes", p.n, p.longest)
	}
}

func TestFlowError(t *testing.T) {
	full := errors.New("disk full")
	p := &pieces{fail: full}
	if err := export.WriteFlow(p, lines); err != full || p.n != 2 {
		t.Errorf("got %v after %d pieces, want %v after 2", err, p.n, full)
	}
}
