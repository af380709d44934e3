package table

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// width is that of the text [columns].
const width = 79

const zeroCelsius = 273.15

// Celsius prints a temperature [K] in °C.
func Celsius(kelvin float64) string { return trim(kelvin-zeroCelsius, 1) + " °C" }

// trim prints x with at most the given decimals and no trailing zeros.
func trim(x float64, decimals int) string {
	if s := untailed(strconv.FormatFloat(x, 'f', decimals, 64)); s != "-0" {
		return s
	}
	return "0"
}

// untailed takes the zeros from the end of a fraction.
func untailed(s string) string {
	if strings.Contains(s, ".") {
		return strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

// Significant prints x with the given number of significant digits and no
// exponent between 1e-7 and 1e6.
func Significant(x float64, digits int) string {
	if x == 0 {
		return "0"
	}
	e := exponent(x, digits)
	if e < -7 || e > 5 {
		return strconv.FormatFloat(x, 'e', digits-1, 64)
	}
	return strconv.FormatFloat(x, 'f', max(0, digits-1-e), 64)
}

// exponent is the power of ten of x as it is printed with so many digits: 1 for 9.99
// with two digits, which print as 10.
func exponent(x float64, digits int) int {
	s := strconv.FormatFloat(x, 'e', digits-1, 64)
	_, power, _ := strings.Cut(s, "e")
	e, err := strconv.Atoi(power)
	if err != nil { // not finite; refused before it comes here
		return math.MaxInt32
	}
	return e
}

// Given prints a value that was stated, not computed: up to four significant
// digits, no trailing zeros.
func Given(x float64) string {
	s := Significant(x, 4)
	mantissa, power, scientific := strings.Cut(s, "e")
	if scientific {
		return untailed(mantissa) + "e" + power
	}
	return untailed(mantissa)
}

// Cell prints a content [kg/kg] in % for a column: three significant digits, at
// most four decimals.
func Cell(content float64) string { return short(100*content, 3) }

// short prints significant digits, but no more than four decimals.
func short(x float64, digits int) string {
	const decimals, least = 4, 5e-5
	switch {
	case math.Abs(x) < least:
		return "0"
	case exponent(x, digits) < digits-1-decimals:
		return strconv.FormatFloat(x, 'f', decimals, 64)
	}
	return Significant(x, digits)
}

// Percent prints a content [kg/kg] as a percentage of dry weight.
func Percent(content float64) string { return Significant(100*content, 3) + " %" }

// Bounded prints a content [kg/kg] in % with the half-width of its band. The
// half-width is rounded up and covers the rounding of the content too.
func Bounded(content, half float64) string {
	const digits = 4
	x, decimals := 100*content, digits
	if x != 0 {
		decimals = min(max(0, digits-1-exponent(x, digits)), 9)
	}
	unit := math.Pow10(-decimals)
	covered := unit * math.Ceil(100*half/unit+0.5)
	return strconv.FormatFloat(x, 'f', decimals, 64) + " ± " + strconv.FormatFloat(covered, 'f', decimals, 64) + " %"
}

// Duration prints seconds in the unit that reads best.
func Duration(s float64) string {
	const minute, hour, day = 60, 3600, 86400
	switch {
	case s < 100:
		return Significant(s, 2) + " s"
	case s < 100*minute:
		return Significant(s/minute, 2) + " min"
	case s < 100*hour:
		return Significant(s/hour, 2) + " h"
	}
	return Significant(s/day, 3) + " d"
}

// Length prints a length [m] that was stated or found.
func Length(m float64) string {
	if m < 1 {
		return Given(1000*m) + " mm"
	}
	return Given(m) + " m"
}

// Millimetres prints a length [m] in mm.
func Millimetres(m float64) string { return Given(1000*m) + " mm" }

// Speed prints a speed [m/s] in mm/s.
func Speed(v float64) string { return Given(1000*v) + " mm/s" }

func pressure(p float64) string {
	if p >= 1000 {
		return Significant(p/1000, 3) + " kPa"
	}
	return Significant(p, 3) + " Pa"
}

// Times says how many times more.
func Times(x float64) string {
	if x < 2 {
		return Significant(x, 3) + " times"
	}
	return Significant(x, 2) + " times"
}

// paragraph sets text after a mark such as a number, in lines that end at the width
// and begin below the text. A number stays with the word after it, most often its
// unit. A word longer than a line is not broken.
func paragraph(b *strings.Builder, mark, text string) {
	indent := strings.Repeat(" ", utf8.RuneCountInString(mark))
	b.WriteString(mark)
	column := len(indent)
	for i, piece := range pieces(text) {
		n := utf8.RuneCountInString(piece)
		switch {
		case i == 0:
		case column+1+n > width:
			b.WriteString("\n" + indent)
			column = len(indent)
		default:
			b.WriteByte(' ')
			column++
		}
		b.WriteString(piece)
		column += n
	}
	b.WriteByte('\n')
}

// apart sets text below an empty line.
func apart(b *strings.Builder, text string) {
	b.WriteByte('\n')
	paragraph(b, "", text)
}

// facts sets what is told of each of some things.
func facts(b *strings.Builder, lines [][2]string) {
	for _, l := range lines {
		paragraph(b, fmt.Sprintf("%-15s", l[0]), l[1])
	}
}

// legend explains the columns of a table, each after its head.
func legend(b *strings.Builder, columns [][2]string) {
	for _, c := range columns {
		paragraph(b, c[0], c[1])
	}
}

// assumed tells what the file left open, below an empty line.
func assumed(b *strings.Builder, what []string) {
	if len(what) > 0 {
		apart(b, notGiven(what))
	}
}

func notGiven(what []string) string {
	return "Not given and assumed: " + strings.Join(what, "; ") + "."
}

// pieces splits text at the spaces where a line may end.
func pieces(text string) []string {
	var out []string
	bound := false
	for _, word := range strings.Fields(text) {
		if bound {
			out[len(out)-1] += " " + word
		} else {
			out = append(out, word)
		}
		last, _ := utf8.DecodeLastRuneInString(word)
		bound = unicode.IsDigit(last) && !bound
	}
	return out
}

// shorten cuts s to n runes.
func shorten(s string, n int) string {
	r := []rune(s)
	if len(r) <= n {
		return s
	}
	return strings.TrimRight(string(r[:n-1]), " ,") + "…"
}

// shortened cuts each name to n runes, and numbers those that would be alike.
func shortened(names []string, n int) []string {
	out, times := make([]string, len(names)), map[string]int{}
	for i, name := range names {
		out[i] = shorten(name, n)
		times[out[i]]++
	}
	for i, name := range out {
		if times[name] > 1 {
			number := strconv.Itoa(i + 1)
			out[i] = shorten(names[i], n-len(number)-1) + " " + number
		}
	}
	return out
}

// narrowed cuts the names of a first column to no more than so many runes, and gives its width.
func narrowed(labels []string, most int) (names []string, width int) {
	names, width = shortened(labels, most), len("material")
	for _, name := range names {
		width = max(width, len([]rune(name)))
	}
	return names, width
}

// cutLabels writes out what narrowed has cut.
func cutLabels(b *strings.Builder, labels []string, most int) {
	names, _ := narrowed(labels, most)
	for i, name := range names {
		if name != labels[i] {
			paragraph(b, name+": ", labels[i])
		}
	}
}
