package figure

import (
	"math"
	"strings"

	"strandry/materials/text/quantity"
)

const zeroCelsius = 273.15

// nbsp holds a number and its unit on one line.
const nbsp = "\u00a0"

func celsius(kelvin float64) string { return digits(math.Round(kelvin-zeroCelsius), 4) + nbsp + "°C" }

// percent prints a content [kg/kg dry] with its unit; below a two-millionth it counts as none.
func percent(content float64) string {
	if math.Abs(content) < 5e-7 {
		content = 0
	}
	return digits(100*content, 2) + nbsp + "%"
}

// percentSpan prints a content with its 10 and 90 % points.
func percentSpan(content, low, high float64) string {
	return percent(content) + " (" + strings.TrimSuffix(percent(low), nbsp+"%") + " to " + strings.TrimSuffix(percent(high), nbsp+"%") + ")"
}

// place prints a position on the path [m].
func place(x float64) string {
	if x < 10 {
		return metres(x)
	}
	return digits(x, 3) + nbsp + "m"
}

// digits prints a number with so many significant digits, of which zeros at the end are dropped.
func digits(x float64, n int) string {
	return spaced(quantity.Number(x, n))
}

func metres(x float64) string {
	if x < 0.1 {
		return digits(1000*x, 2) + nbsp + "mm"
	}
	return digits(x, 2) + nbsp + "m"
}

func speedOf(v float64) string { return digits(1000*v, 3) + nbsp + "mm/s" }

// hours prints a time [s] in the unit that reads best.
func hours(s float64) string {
	const minute, hour, day, year = 60, 3600, 86400, 365.25 * 86400
	switch {
	case s < minute:
		return digits(s, 2) + nbsp + "s"
	case s < 100*minute:
		return digits(s/minute, 2) + nbsp + "min"
	case s < 72*hour:
		return digits(s/hour, 2) + nbsp + "h"
	case s < year:
		return digits(s/day, 2) + nbsp + "days"
	}
	return digits(s/year, 2) + nbsp + "years"
}

// times says how many times one value is another.
func times(x float64) string {
	if x < 2 {
		return digits(x, 3) + nbsp + "times"
	}
	return digits(x, 2) + nbsp + "times"
}

func dry(limit, mean float64) bool { return mean <= limit }
