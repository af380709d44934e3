package quantity

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// split cuts the decimal number off the front of a text: sign, digits with an optional decimal sign, an optional
// exponent ("e-13" or "×10^-13"). The number is "" when there is none. A comma is the decimal sign, unless it may
// part thousands; unclear says so.
func split(text string) (number, rest, unclear string) {
	text = strings.Replace(text, "−", "-", 1) // the typographic minus sign
	i := 0
	if i < len(text) && (text[i] == '-' || text[i] == '+') {
		i++
	}
	sign := text[:i]
	whole := digits(text[i:])
	left := text[i : i+whole]
	i += whole
	part, comma := 0, i+1 < len(text) && text[i] == ',' && digits(text[i+1:]) > 0
	right := ""
	if comma || i < len(text) && text[i] == '.' {
		part = digits(text[i+1:])
		right = text[i+1 : i+1+part]
		i += 1 + part
	}
	if whole+part == 0 {
		return "", text, ""
	}
	if i+1 < len(text) && (text[i] == ',' || text[i] == '.' && comma) && digits(text[i+1:]) > 0 {
		return "", "", "two signs in one number; write it with a point as the decimal sign and nothing between thousands"
	}
	const group = 3 // digits between the signs that part thousands
	if comma && part == group && whole > 0 && whole <= group && left[0] != '0' {
		return "", "", "is the comma the decimal sign? write " + strconv.Quote(left+"."+right) + " or " + strconv.Quote(left+right)
	}
	number = sign + left + "." + right
	if !comma && part == 0 {
		number = sign + left
	}
	e, length := exponent(text[i:])
	return number + e, text[i+length:], ""
}

// exponent reads the power of ten behind a number, as Go writes it, and tells how many bytes it takes.
func exponent(text string) (e string, length int) {
	if text != "" && (text[0] == 'e' || text[0] == 'E') {
		return power(text, 1)
	}
	spaced := strings.TrimLeft(text, " ")
	for _, times := range [...]string{"×", "x", "*", "·", "⋅"} {
		behind, found := strings.CutPrefix(spaced, times)
		if behind = strings.TrimLeft(behind, " "); !found || !strings.HasPrefix(behind, "10") {
			continue
		}
		at := len(text) - len(behind) + len("10")
		if strings.HasPrefix(text[at:], "^") {
			return power(text, at+1)
		}
		down, raised := lowered(text[at:])
		if e, n := power(down, 0); n > 0 {
			return e, at + raised
		}
	}
	return "", 0
}

// lowered sets the superscripts at the front of a text down, and tells how many bytes they take.
func lowered(text string) (down string, length int) {
	const raised, plain = "⁻⁺⁰¹²³⁴⁵⁶⁷⁸⁹", "-+0123456789"
	for _, r := range text {
		at := slices.Index([]rune(raised), r)
		if at < 0 {
			break
		}
		down, length = down+plain[at:at+1], length+len(string(r))
	}
	return down, length
}

// power reads a whole number with its sign from a place of a text.
func power(text string, at int) (e string, length int) {
	behind := strings.Replace(text[at:], "−", "-", 1)
	cut := len(text[at:]) - len(behind)
	n := 0
	if behind != "" && (behind[0] == '-' || behind[0] == '+') {
		n++
	}
	if digits(behind[n:]) == 0 {
		return "", 0
	}
	n += digits(behind[n:])
	return "e" + behind[:n], at + n + cut
}

func digits(text string) int {
	n := 0
	for n < len(text) && text[n] >= '0' && text[n] <= '9' {
		n++
	}
	return n
}

// plainSpelling writes exponents, products and degrees in one way. Read only;
// built once, for it is what reading a file spends its time on.
var plainSpelling = strings.NewReplacer("²", "2", "³", "3", "¹", "1", "⁻", "-", "−", "-", "^", "",
	" per ", "/", "r.h.", "rh", "R.H.", "RH", "·", " ", "⋅", " ", "*", " ", "×", " ", "\u00a0", " ", "\u202f", " ",
	"μ", "u", "µ", "u", "º", "°", "˚", "°", "℃", "°C", "℉", "°F")

// canonical brings a unit to one spelling: its factors with their powers,
// sorted. Factors are not cancelled (g/kg is a unit), and all that follows the
// first solidus has a negative power. False when the text is not a unit at all.
func canonical(text string) (string, bool) {
	plain := plainSpelling.Replace(text)
	runes := []rune(plain)
	var factors []string
	sign, open, expect := 1, 0, true
	for i := 0; i < len(runes); {
		switch r := runes[i]; {
		case r == ' ':
			i++
		case r == '/' && !expect:
			sign, expect, i = -1, true, i+1
		case r == '(':
			open, i = open+1, i+1
		case r == ')' && open > 0 && !expect:
			open, i = open-1, i+1
		case letter(r):
			factor, length := oneFactor(runes[i:], sign)
			if factor == "" {
				return "", false
			}
			factors, expect, i = append(factors, factor), false, i+length
		default:
			return "", false
		}
	}
	if expect || open > 0 {
		return "", false
	}
	slices.Sort(factors)
	return strings.Join(factors, " "), true
}

func letter(r rune) bool { return unicode.IsLetter(r) || r == '%' || r == '°' }

// oneFactor reads a symbol and its power, and returns "symbol^power" and the
// number of runes read.
func oneFactor(runes []rune, sign int) (string, int) {
	n := 0
	for n < len(runes) && letter(runes[n]) {
		n++
	}
	symbol, power := string(runes[:n]), 1
	if n+1 < len(runes) && runes[n] == '-' && digit(runes[n+1]) {
		power, n = -1, n+1
	}
	if n < len(runes) && digit(runes[n]) {
		power, n = power*int(runes[n]-'0'), n+1
		if n < len(runes) && digit(runes[n]) {
			return "", 0
		}
	}
	return plain(symbol) + "^" + strconv.Itoa(sign*power), n
}

// plain is the symbol of a unit for which people also write a word.
func plain(symbol string) string {
	switch symbol {
	case "l":
		return "L"
	case "ml":
		return "mL"
	}
	switch strings.ToLower(symbol) {
	case "degc":
		return "°C"
	case "degf":
		return "°F"
	case "deg", "degs", "degree", "degrees":
		return "°"
	case "celsius", "centigrade":
		return "C"
	case "fahrenheit":
		return "F"
	case "kelvin", "kelvins":
		return "K"
	case "sec", "secs", "second", "seconds":
		return "s"
	case "min", "mins", "minute", "minutes":
		return "min"
	case "hr", "hrs", "hour", "hours":
		return "h"
	case "day", "days":
		return "d"
	case "meter", "meters", "metre", "metres":
		return "m"
	case "millimeter", "millimeters", "millimetre", "millimetres":
		return "mm"
	case "centimeter", "centimeters", "centimetre", "centimetres":
		return "cm"
	case "micron", "microns", "micrometer", "micrometers", "micrometre", "micrometres":
		return "um"
	case "ltr", "liter", "liters", "litre", "litres":
		return "L"
	case "percent", "pct":
		return "%"
	case "gram", "grams":
		return "g"
	case "watt", "watts":
		return "W"
	}
	return symbol
}

func digit(r rune) bool { return r >= '0' && r <= '9' }
