package masses

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"strandry/materials/text/quantity"
	"strandry/materials/text/strict"
)

// numbers are how a text writes them.
type numbers struct {
	comma   rune // between cells
	decimal byte // the decimal sign of those before; 0 for none yet
}

// plain gives a number as Go writes it, or what is wrong with it.
func (n *numbers) plain(cell string) (number, problem, allowed string) {
	text := strings.Replace(cell, "−", "-", 1) // the typographic minus sign
	sign := strings.IndexAny(text, ".,")
	switch {
	case text == "":
		return "", "the cell is empty", ""
	case notFinite(text):
		return "", "not a finite number", ""
	case partsThousands(text):
		return "", "signs between thousands", "digits with one decimal sign, such as 20310.5"
	case sign >= 0 && text[sign] == ',' && n.comma == ',':
		return "", "is the comma the decimal sign? it parts the cells as well", "a decimal point, or semicolons or tabs between the cells"
	}
	pointed := strings.Replace(text, ",", ".", 1)
	if _, err := strconv.ParseFloat(pointed, 64); err != nil && !errors.Is(err, strconv.ErrRange) || strings.ContainsAny(text, "_xXpP") {
		if quantityOf(pointed) {
			return "", "no number alone", "the number; its unit stands in the header"
		}
		if _, _, timed := clockTime(text); timed {
			return "", "a time of day in a column with a unit", "numbers; times of day stand in a column called clock"
		}
		return "", "no number", ""
	}
	if sign >= 0 {
		if n.decimal != 0 && n.decimal != text[sign] {
			return "", "decimal points and decimal commas in one file", "one of them"
		}
		n.decimal = text[sign]
	}
	return pointed, "", ""
}

// notFinite tells of the words for what is no finite number.
func notFinite(text string) bool {
	switch strings.ToLower(strings.TrimLeft(text, "+-")) {
	case "nan", "inf", "infinity", "∞", "#n/a", "#div/0!":
		return true
	}
	return false
}

// partsThousands tells that a number holds more than one sign between digits.
func partsThousands(text string) bool {
	signs := 0
	for _, r := range text {
		switch {
		case strings.ContainsRune(".,' ’\u00a0\u202f\u2009", r):
			signs++
		case r < '0' || r > '9':
			return signs > 1 && r == 'e'
		}
	}
	return signs > 1 || signs == 1 && !strings.ContainsAny(text, ".,")
}

// quantityOf tells that a text is a number with a unit of time or mass.
func quantityOf(text string) bool {
	_, time := quantity.Duration().Parse(text)
	_, mass := quantity.Mass().Parse(text)
	return time == nil || mass == nil
}

func allDigits(cells []string) bool {
	return !slices.ContainsFunc(cells, func(cell string) bool { return cell == "" || strings.Trim(cell, "0123456789") != "" })
}

// value reads the number in a cell as SI.
func (r *reader) value(cell string, line int, column string, dim quantity.Dimension, unit string) (si float64, ok bool) {
	number, problem, allowed := r.number.plain(cell)
	if problem != "" {
		r.fault(line, column, quoted(cell), problem, allowed)
		return 0, false
	}
	si, err := dim.Parse(number + " " + unit)
	if err != nil {
		var detail *quantity.Error
		errors.As(err, &detail)
		r.report(strict.Fault{Line: line, Key: column, Given: quoted(cell), Problem: detail.Problem})
		return 0, false
	}
	return si, true
}

// mass reads the mass of a row [kg].
func (r *reader) mass(cell string, line int) (kg float64, ok bool) {
	dim, column := quantity.Mass(), r.columns.names[r.columns.mass]
	if cell == "" {
		r.empty = append(r.empty, line)
		return 0, false
	}
	kg, ok = r.value(cell, line, column, dim, r.columns.massUnit)
	problem := ""
	switch {
	case !ok:
		return 0, false
	case kg == 0:
		problem = "nothing on the scale"
	case kg < 0:
		problem = "a mass below zero"
	case kg < Lightest:
		problem = dim.Format(kg, "mg", 3) + " of strand"
	case kg > Heaviest:
		problem = dim.Format(kg, "kg", 3) + " of strand"
	default:
		return kg, true
	}
	r.fault(line, column, quoted(cell), problem, dim.Format(Lightest, r.columns.massUnit, 6)+" to "+dim.Format(Heaviest, r.columns.massUnit, 6))
	return 0, false
}
