package export

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// plain holds what stands for a character in ASCII.
var plain = asciiTable()

func asciiTable() map[rune]string {
	m := map[rune]string{
		'×': "x", '÷': "/", '±': "+/-", '−': "-", '·': ".", '•': "*", '…': "...", '√': "sqrt ",
		'°': " deg", '′': "'", '″': "\"", '∠': "angle ", '⊥': "perp. ", '∥': "par. ",
		'≤': "<=", '≥': ">=", '≠': "!=", '≈': "~", '∞': "inf.",
		'→': "->", '←': "<-", '↔': "<->", '↑': "up", '↓': "down",
		'¹': "1", '²': "2", '³': "3", '⁴': "4", '₁': "1", '₂': "2", '₃': "3",
		'½': " 1/2", '¼': " 1/4", '¾': " 3/4", '⅓': " 1/3", '⅔': " 2/3",
		'⅛': " 1/8", '⅜': " 3/8", '⅝': " 5/8", '⅞': " 7/8",
		'Æ': "AE", 'æ': "ae", 'Œ': "OE", 'œ': "oe", 'ß': "ss", 'Þ': "Th", 'þ': "th",
		'€': "EUR", '£': "GBP", '©': "(c)", '®': "(R)", '™': "TM", '§': "sec. ", '№': "No. ",
		'µ': "u", 'μ': "u", 'α': "alpha", 'β': "beta", 'γ': "gamma", 'δ': "delta", 'Δ': "Delta",
		'θ': "theta", 'π': "pi", 'ρ': "rho", 'σ': "sigma", 'τ': "tau", 'φ': "phi", 'ω': "omega",
		'«': "\"", '»': "\"", '“': "\"", '”': "\"", '„': "\"", '‘': "'", '’': "'", '‚': "'",
		'‐': "-", '‑': "-", '‒': "-", '–': "-", '—': "-", '⁄': "/", '∕': "/",
		'⌀': "dia. ", '∅': "dia. ", 'Ø': "O", '\u00ad': "", '\u200b': "", '\ufeff': "",
	}
	// Letters with accents stand after the letter they are written as.
	for _, row := range []string{
		"AÀÁÂÃÄÅĀĂĄ", "aàáâãäåāăą", "CÇĆĈĊČ", "cçćĉċč", "DÐĎĐ", "dðďđ", "EÈÉÊËĒĔĖĘĚ", "eèéêëēĕėęě",
		"GĜĞĠĢ", "gĝğġģ", "HĤĦ", "hĥħ", "IÌÍÎÏĨĪĬĮİ", "iìíîïĩīĭįı", "JĴ", "jĵ", "KĶ", "kķ",
		"LĹĻĽŁ", "lĺļľł", "NÑŃŅŇ", "nñńņň", "OÒÓÔÕÖŌŎŐ", "oòóôõöøōŏő", "RŔŖŘ", "rŕŗř",
		"SŚŜŞŠȘ", "sśŝşšș", "TŢŤŦȚ", "tţťŧț", "UÙÚÛÜŨŪŬŮŰŲ", "uùúûüũūŭůűų", "WŴ", "wŵ",
		"YÝŶŸ", "yýŷÿ", "ZŹŻŽ", "zźżž",
	} {
		base := row[:1]
		for _, r := range row[1:] {
			m[r] = base
		}
	}
	return m
}

// ASCII writes s with the characters of ASCII alone, for files that hold no others: "6 × 38 mm" becomes
// "6 x 38 mm", "1½ in" "1 1/2 in", "Ø38" "dia. 38" and "12.5°" "12.5 deg". What has no such spelling
// becomes '?', a control character a blank.
func ASCII(s string) string {
	return Spell(s, func(r rune) bool { return r >= ' ' && r < 0x7f })
}

// Spell writes s with the characters that a font or a file has, and the others as ASCII writes them.
// Printable ASCII must be among those it has.
func Spell(s string, has func(rune) bool) string {
	if hasAll(s, has) {
		return s
	}
	var b strings.Builder
	rs := []rune(s)
	for i, r := range rs {
		switch {
		case has(r):
			b.WriteRune(r)
		case unicode.IsControl(r) || unicode.IsSpace(r):
			b.WriteByte(' ')
		case (r == '⌀' || r == '∅') && has('Ø'): // it looks the same
			b.WriteRune('Ø')
		case r == 'Ø' && (i+1 == len(rs) || !unicode.IsLetter(rs[i+1])): // before a letter it is one
			word(&b, "dia. ", rs[i+1:])
		case unicode.Is(unicode.Mn, r): // an accent that follows its letter
		default:
			p, ok := plain[r]
			if !ok {
				p = "?"
			}
			word(&b, p, rs[i+1:])
		}
	}
	return b.String()
}

// hasAll reports whether nothing in s is to be spelled. What is no letter at all (a broken file) is.
func hasAll(s string, has func(rune) bool) bool {
	for _, r := range s {
		if r == utf8.RuneError || !has(r) {
			return false
		}
	}
	return true
}

// word writes p, which may begin or end with a blank: the blank before is for a digit in front of it, the
// one behind is dropped where a blank or nothing follows.
func word(b *strings.Builder, p string, rest []rune) {
	if strings.HasPrefix(p, " ") {
		before := b.String()
		if before == "" || !unicode.IsDigit(rune(before[len(before)-1])) {
			p = p[1:]
		}
	}
	if len(rest) == 0 || unicode.IsSpace(rest[0]) {
		p = strings.TrimSuffix(p, " ")
	}
	b.WriteString(p)
}
