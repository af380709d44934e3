package figure

import (
	"fmt"
	"math"
	"strings"

	"strandry/materials/text/quantity"
	"strandry/plots/canvas"
	"strandry/plots/words"
	"strandry/scenarios"
)

// Axis is one quantity of a map or a line.
type Axis struct {
	Name   string    // as it is written, such as "length of drum"
	Unit   string    // such as "m"; "" for a plain number
	Values []float64 // in that unit, rising
	Log    bool      // they step by ratio
	Heat   *Heat     // where the strand gives way, on an axis of air temperatures; nil on another
}

// axisOf makes an axis of figures from one of a scenario, in the unit of the file. An
// axis of names cannot be drawn as a quantity.
func axisOf(a scenarios.Axis) (Axis, error) {
	if len(a.Values) == 0 {
		return Axis{}, fmt.Errorf("figure: %s has no numbers to draw along an axis", a.Key.Name)
	}
	out := Axis{Name: keyName(a.Key), Unit: a.Unit}
	if out.Unit == "" {
		out.Unit = a.Key.Dimension.Usual()
	}
	for _, v := range a.Values {
		if !a.Key.Plain() {
			in, ok := a.Key.Dimension.In(v, out.Unit)
			if !ok {
				return Axis{}, fmt.Errorf("figure: %q is no unit of %s", out.Unit, a.Key.Name)
			}
			v = in
		}
		out.Values = append(out.Values, v)
	}
	out.Log = evenly(out.Values)
	return out, nil
}

// keyName puts the name of a key in words: zone.drum.air.dew_point is the "dew point of the air
// in drum".
func keyName(key scenarios.Key) string {
	path := key.Name
	if key.Zone != "" {
		path = strings.TrimPrefix(path, "zone."+key.Zone+".") // which may hold dots itself
	}
	parts := strings.Split(path, ".")
	last := strings.ReplaceAll(parts[len(parts)-1], "_", " ")
	switch {
	case key.Zone != "" && len(parts) == 1:
		return last + " of " + key.Zone
	case key.Zone != "":
		return last + " of the " + parts[0] + " in " + key.Zone
	case len(parts) == 1:
		return last
	case path == "feed.bead.speed":
		return "speed of the print head"
	case parts[0] == "strand" && len(parts) > 2:
		return last + " of " + strings.Join(parts[1:len(parts)-1], " ")
	}
	return parts[0] + " " + last
}

func (a Axis) label() string {
	name := strings.ToUpper(a.Name[:1]) + a.Name[1:]
	a.Unit = printed(a.Unit)
	if a.Unit == "" {
		return name
	}
	if a.Heat != nil {
		return name + ", " + a.Unit + a.Heat.beyond(a.Values[len(a.Values)-1], a.Unit)
	}
	return name + ", " + a.Unit
}

// printed is a unit as it is set in print.
func printed(unit string) string { return strings.NewReplacer("m2", "m²", "m3", "m³").Replace(unit) }

// say prints a value with its unit.
func (a Axis) say(v float64) string {
	if a.Unit == "" {
		return words.Digits(v, 3)
	}
	return words.Digits(v, 2) + words.NBSP + printed(a.Unit)
}

// bound prints a value that is a least or a greatest one, rounded to the safe side.
func (a Axis) bound(v float64, least bool) string {
	const kept = 3
	text := words.Digits(quantity.Outward(v, kept, least), kept)
	if a.Unit == "" {
		return text
	}
	return text + words.NBSP + printed(a.Unit)
}

func (a Axis) check() error {
	if len(a.Values) < 2 || a.Name == "" {
		return errEmpty
	}
	if a.Log {
		if err := positive(a.Name, a.Values...); err != nil {
			return err
		}
	}
	return rising(a.Name, a.Values)
}

// scale runs from the first value to the last.
func (a Axis) scale() canvas.Scale {
	return canvas.Scale{Min: a.Values[0], Max: a.Values[len(a.Values)-1], Log: a.Log}
}

// evenly tells whether rising or falling positive values step by ratio rather than by
// difference.
func evenly(values []float64) (byRatio bool) {
	n := len(values)
	if n < 3 {
		return false
	}
	for _, v := range values {
		if !(v > 0) {
			return false
		}
	}
	difference, ratio := 0.0, 0.0
	for i, v := range values {
		share := float64(i) / float64(n-1)
		straight := values[0] + (values[n-1]-values[0])*share
		bent := values[0] * math.Pow(values[n-1]/values[0], share)
		difference = math.Max(difference, math.Abs(v-straight)/v)
		ratio = math.Max(ratio, math.Abs(v-bent)/v)
	}
	return ratio < difference
}
