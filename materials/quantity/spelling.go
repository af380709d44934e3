package quantity

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// split cuts the decimal number off the front of a text: sign, digits with an
// optional point, optional exponent. The number is "" when there is none.
func split(text string) (number, rest string) {
	text = strings.Replace(text, "−", "-", 1) // the typographic minus sign
	i := 0
	if i < len(text) && (text[i] == '-' || text[i] == '+') {
		i++
	}
	whole := digits(text[i:])
	i += whole
	part := 0
	if i < len(text) && text[i] == '.' {
		part = digits(text[i+1:])
		i += 1 + part
	}
	if whole+part == 0 {
		return "", text
	}
	if i < len(text) && (text[i] == 'e' || text[i] == 'E') {
		j := i + 1
		if j < len(text) && (text[j] == '-' || text[j] == '+') {
			j++
		}
		if n := digits(text[j:]); n > 0 {
			i = j + n
		}
	}
	return text[:i], text[i:]
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
	"·", " ", "⋅", " ", "*", " ", "×", " ", "\u00a0", " ", "\u202f", " ",
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
	switch symbol {
	case "degC":
		symbol = "°C"
	case "degF":
		symbol = "°F"
	case "deg":
		symbol = "°"
	case "l":
		symbol = "L"
	case "ml":
		symbol = "mL"
	}
	return symbol + "^" + strconv.Itoa(sign*power), n
}

func digit(r rune) bool { return r >= '0' && r <= '9' }
