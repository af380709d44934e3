package table

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

const zeroCelsius = 273.15

func celsius(kelvin float64) string { return trim(kelvin-zeroCelsius, 1) + " °C" }

// trim prints x with at most the given decimals and no trailing zeros.
func trim(x float64, decimals int) string {
	s := strconv.FormatFloat(x, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

// significant prints x with the given number of significant digits and no
// exponent between 1e-7 and 1e6.
func significant(x float64, digits int) string {
	if x == 0 {
		return "0"
	}
	e := int(math.Floor(math.Log10(math.Abs(x))))
	if e < -7 || e > 5 {
		return strconv.FormatFloat(x, 'e', digits-1, 64)
	}
	return strconv.FormatFloat(x, 'f', max(0, digits-1-e), 64)
}

// cell prints a content [kg/kg] in % for a column.
func cell(content float64) string {
	const least = 1e-6 // [kg/kg]
	if content > -least && content < least {
		return "0"
	}
	return significant(100*content, 3)
}

// percent prints a content [kg/kg] as a percentage of dry weight.
func percent(content float64) string { return significant(100*content, 3) + " %" }

// duration prints seconds in the unit that reads best.
func duration(s float64) string {
	switch {
	case s < 100:
		return significant(s, 2) + " s"
	case s < 100*60:
		return significant(s/60, 2) + " min"
	case s < 100*3600:
		return significant(s/3600, 2) + " h"
	}
	return significant(s/86400, 3) + " d"
}

func length(m float64) string {
	if m < 0.1 {
		return trim(1000*m, 2) + " mm"
	}
	return trim(m, 3) + " m"
}

func millimetres(m float64) string { return trim(1000*m, 3) + " mm" }

func speed(v float64) string { return trim(1000*v, 3) + " mm/s" }

func pressure(p float64) string {
	if p >= 1000 {
		return significant(p/1000, 3) + " kPa"
	}
	return significant(p, 3) + " Pa"
}

// times says how many times more.
func times(x float64) string {
	if x >= 10 {
		return fmt.Sprintf("%.0f times", x)
	}
	return fmt.Sprintf("%.1f times", x)
}

// wrap breaks text at spaces into lines of at most width runes, the second and
// later ones indented.
func wrap(text string, width int, indent string) string {
	var out strings.Builder
	column := 0
	for i, word := range strings.Fields(text) {
		n := len([]rune(word))
		switch {
		case i == 0:
		case column+1+n > width:
			out.WriteString("\n" + indent)
			column = len([]rune(indent))
		default:
			out.WriteByte(' ')
			column++
		}
		out.WriteString(word)
		column += n
	}
	return out.String()
}
