package export

import (
	"math"
	"strconv"
)

// AppendNum appends v as a plain decimal with at most the places given, rounded to the nearest: no exponent,
// no zeros at the end, no "-0".
func AppendNum(b []byte, v float64, places int) []byte {
	n, ok := steps(math.Abs(v), places)
	if !ok {
		return appendRare(b, v, places)
	}
	if v < 0 {
		n = -n
	}
	return AppendSteps(b, n, places)
}

// AppendSteps appends the number of n steps of the last of so many places, 16 at most: 15 with one place is "1.5".
func AppendSteps(b []byte, n int64, places int) []byte {
	if n < 0 {
		n = -n
		b = append(b, '-')
	}
	left := uint64(n) // division is quicker without a sign
	if uint(places) <= shortPlaces && left < shortMost {
		if v := left * shortSteps[places]; v < shortMost {
			return appendShort(b, uint32(v/1e6), uint32(v%1e6))
		}
	}
	var digits [24]byte
	i := len(digits)
	for places > 0 && left%10 == 0 {
		left /= 10
		places--
	}
	for ; places > 0; places-- {
		i--
		digits[i] = '0' + byte(left%10)
		left /= 10
		if places == 1 {
			i--
			digits[i] = '.'
		}
	}
	for ; left >= 10; left /= 10 {
		i--
		digits[i] = '0' + byte(left%10)
	}
	i--
	digits[i] = '0' + byte(left)
	return append(b, digits[i:]...)
}

// Nearly all numbers have at most six places, and four digits before them.
const (
	shortPlaces = 6
	shortMost   = 1e10
)

// shortSteps are how many millionths a step of the last of so many places is.
var shortSteps = [shortPlaces + 1]uint64{1e6, 1e5, 1e4, 1e3, 100, 10, 1}

// pairs are the numbers below 100, two digits each.
const pairs = "00010203040506070809101112131415161718192021222324252627282930313233343536373839404142434445464748495051525354555657585960616263646566676869707172737475767778798081828384858687888990919293949596979899"

// appendShort appends a number below 10,000 and so many millionths, two digits at a time.
func appendShort(b []byte, whole, millionths uint32) []byte {
	hi, lo := whole/100*2, whole%100*2
	switch {
	case whole >= 1000:
		b = append(b, pairs[hi], pairs[hi+1], pairs[lo], pairs[lo+1])
	case whole >= 100:
		b = append(b, pairs[hi+1], pairs[lo], pairs[lo+1])
	case whole >= 10:
		b = append(b, pairs[lo], pairs[lo+1])
	default:
		b = append(b, pairs[lo+1])
	}
	if millionths == 0 {
		return b
	}
	part, rest := millionths/100, millionths%100*2
	hi, lo = part/100*2, part%100*2
	b = append(b, '.', pairs[hi], pairs[hi+1], pairs[lo], pairs[lo+1])
	if rest != 0 {
		b = append(b, pairs[rest], pairs[rest+1])
	}
	for b[len(b)-1] == '0' {
		b = b[:len(b)-1]
	}
	return b
}

// powers of ten, by their exponents.
var powers = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12}

// steps returns how many steps of the last place the nearest decimal to v ≥ 0 has. ok is false for a number so large,
// or so near to the middle between two steps, that the rounding of the product could decide.
func steps(v float64, places int) (n int64, ok bool) {
	if uint(places) >= uint(len(powers)) {
		return 0, false
	}
	r := float64(v * powers[places])
	if !(r < 1<<50) {
		return 0, false
	}
	n = int64(r + 0.5)
	off := math.Abs(r - float64(n)) // exact
	return n, 0.5-off > float64(r*0x1p-52)
}

// appendRare is AppendNum by way of the number's exact decimal.
func appendRare(b []byte, v float64, places int) []byte {
	n := len(b)
	b = strconv.AppendFloat(b, v, 'f', places, 64)
	if places > 0 {
		for b[len(b)-1] == '0' {
			b = b[:len(b)-1]
		}
		if b[len(b)-1] == '.' {
			b = b[:len(b)-1]
		}
	}
	if string(b[n:]) == "-0" {
		b = append(b[:n], '0')
	}
	return b
}
