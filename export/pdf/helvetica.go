package pdf

import "ribwright/export"

// helveticaCapital is the height of Helvetica's capitals in thousandths of its size (Adobe Core 14 font
// metrics, Helvetica.afm).
const helveticaCapital = 718

// helvetica holds the advances of the characters of WinAnsiEncoding from 32 on, in thousandths of the
// size: Adobe Core 14 font metrics, Helvetica.afm, from memory; the test compares them with a reader's.
var helvetica = [224]uint16{
	278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, // space … /
	556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, // 0 … ?
	1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778, // @ … O
	667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556, // P … _
	333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, // ` … o
	556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584, 350, // p … ~
	556, 350, 222, 556, 333, 1000, 556, 556, 333, 1000, 667, 333, 1000, 350, 611, 350, // € …
	350, 222, 222, 333, 333, 350, 556, 1000, 333, 1000, 500, 333, 944, 350, 500, 667, // ‘ …
	278, 333, 556, 556, 556, 556, 260, 556, 333, 737, 370, 556, 584, 333, 737, 333, // ¡ …
	400, 584, 333, 333, 333, 556, 537, 278, 333, 333, 365, 556, 834, 834, 834, 611, // ° …
	667, 667, 667, 667, 667, 667, 1000, 722, 667, 667, 667, 667, 278, 278, 278, 278, // À …
	722, 722, 778, 778, 778, 778, 778, 584, 778, 722, 722, 722, 722, 667, 667, 611, // Ð …
	556, 556, 556, 556, 556, 556, 889, 500, 556, 556, 556, 556, 278, 278, 278, 278, // à …
	556, 556, 556, 556, 556, 556, 556, 584, 611, 556, 556, 556, 556, 500, 556, 500, // ð …
}

// upper holds the characters that WinAnsiEncoding has from 128 to 159; 0 where there is none.
var upper = [32]rune{
	'€', 0, '‚', 'ƒ', '„', '…', '†', '‡', 'ˆ', '‰', 'Š', '‹', 'Œ', 0, 'Ž', 0,
	0, '‘', '’', '“', '”', '•', '–', '—', '˜', '™', 'š', '›', 'œ', 0, 'ž', 'Ÿ',
}

// code returns the byte for a character, 0 where WinAnsiEncoding has none.
func code(r rune) byte {
	if r >= ' ' && r <= '~' || r > 0xA0 && r <= 0xFF && r != 0xAD {
		return byte(r)
	}
	for i, u := range upper {
		if u == r && u != 0 {
			return byte(128 + i)
		}
	}
	return 0
}

// winAnsi writes s in WinAnsiEncoding, what that lacks in the spelling of export.ASCII.
func winAnsi(s string) []byte {
	s = export.Spell(s, func(r rune) bool { return code(r) != 0 })
	out := make([]byte, 0, len(s))
	for _, r := range s {
		out = append(out, code(r))
	}
	return out
}

// helveticaWidth returns the length of s in thousandths of the size.
func helveticaWidth(s []byte) float64 {
	n := 0
	for _, c := range s {
		n += int(helvetica[c-32])
	}
	return float64(n)
}
