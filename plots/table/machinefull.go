package table

import (
	"fmt"
	"math"
	"strings"

	"strandry/diffusion/machine"
	"strandry/materials/humidair"
)

// MachinePart is what is told of one chamber, or of the machine as a whole, as rows of a head, which goes into 14 columns, and a text.
type MachinePart struct {
	Head string
	Rows [][2]string
}

// row adds one where there is a text.
func (p *MachinePart) row(head, text string) {
	if text != "" {
		p.Rows = append(p.Rows, [2]string{head, text})
	}
}

// Parts are all that is told of the machine: its chambers, then what they share. What is not stated is left out.
func (m *Machine) Parts() []MachinePart {
	var all []MachinePart
	for i := range m.Chambers {
		if p := m.chamber(i); len(p.Rows) > 0 {
			all = append(all, p)
		}
	}
	return append(all, m.whole())
}

func (m *Machine) chamber(i int) MachinePart {
	h := &m.Chambers[i]
	p := MachinePart{Head: h.Name}
	if h.Led {
		p.row("Housing", fmt.Sprintf("%s outside, %s m² of wall inside any insulation; it holds %s of strand", sizes(h.Outer), Significant(h.Lead.WallArea, 2), metres(h.Lead.Length)))
		p.row("Fits", m.fitsOf(h))
		if h.Lead.BendRadius > 0 {
			p.row("Bends", fmt.Sprintf("over a radius of %s: the outer fibre by %s %%", millimetres(h.Lead.BendRadius), figure(100*h.Lead.BendStrain)))
		}
	}
	if h.Heated {
		p.row("Power", powered(h))
		p.row("Goes to", goesTo(h))
		p.row("Heater", m.heater(h))
		p.row("Warm-up", warmUp(h))
		p.row("Outside", touched(h))
		if h.Uneven {
			inlet := h.Along.Outlet + h.Along.Range
			p.row("Evenness", fmt.Sprintf("if only the air that enters is warmed, it cools from %.0f °C to %.0f °C along the chamber", inlet-zeroCelsius, h.Along.Outlet-zeroCelsius))
		}
	}
	if w := &h.Water; w.Limited {
		p.row("Air", m.aired(i))
		p.row("Water", watered(w))
		if w.Searched {
			p.row("Flows of air", useful(w))
		}
		if h.Heated {
			p.row("Closes", fmt.Sprintf("the balance of heat to %s, that of water to %s", Significant(math.Abs(h.Residual), 1), Significant(math.Abs(w.Residual), 1)))
		}
	}
	return p
}

// metres and millimetres print lengths that were computed.
func metres(x float64) string {
	if x < 1 {
		return millimetres(x)
	}
	return untailed(Significant(x, 3)) + " m"
}

func millimetres(x float64) string { return untailed(Significant(1000*x, 3)) + " mm" }

func (m *Machine) fitsOf(h *machine.Housed) string {
	b := m.Stated.Box
	box := sizes([3]float64{b.Length, b.Width, b.Height})
	switch {
	case !h.Boxed:
		return "no box is stated: [build] box"
	case h.Fits:
		return fmt.Sprintf("yes, the box of %s, which holds up to %s so led", box, metres(h.Most))
	case h.Most > 0:
		return fmt.Sprintf("NO, not the box of %s, which holds %s so led", box, metres(h.Most))
	}
	return fmt.Sprintf("NO, not the box of %s, nor does any so led", box)
}

// powered is the power in the steady state.
func powered(h *machine.Housed) string {
	if h.Steady.Heater < 0 {
		return "none: what is given warms it already"
	}
	text := watts(h.Steady.Heater)
	if low, high := ends(h); h.Walled && low < high {
		text += fmt.Sprintf(" (%s to %s, by the doubt of the films at its wall)", figure(low), figure(high))
	}
	var without []string
	if !h.Walled {
		without = append(without, "its wall")
	}
	if h.Airless {
		without = append(without, "its air")
	}
	if len(without) > 0 {
		text += ", without " + Joined(without) + ", of which too little is stated"
	}
	return text
}

// goesTo is where the power goes, the largest term not first but each in its place.
func goesTo(h *machine.Housed) string {
	s := &h.Steady
	words := []string{"strand " + watts(s.Strand), "its water " + watts(s.Water)}
	if !h.Airless {
		words = append(words, "air "+watts(s.Air))
		if s.Leak != 0 {
			words = append(words, "leak "+watts(s.Leak))
		}
	}
	if h.Walled {
		words = append(words, fmt.Sprintf("wall %s (%s to %s)", watts(s.Wall), figure(h.Loss.PowerLow), figure(h.Loss.PowerHigh)))
	}
	return strings.Join(words, ", ")
}

func (m *Machine) heater(h *machine.Housed) string {
	if h.Heater > 0 {
		return fmt.Sprintf("%s stated; %s with the margin of %s", watts(h.Heater), watts(h.Size), Given(m.Stated.Margin))
	}
	return fmt.Sprintf("take %s: the power times a margin of %s", watts(h.Size), Given(m.Stated.Margin))
}

func warmUp(h *machine.Housed) string {
	by := " with the heater to take"
	if h.Heater > 0 {
		by = " with the heater that is stated"
	}
	switch {
	case !h.Warms:
		return "not known: the mass that warms up with it is not stated"
	case h.WarmUp.Reached:
		return Duration(h.WarmUp.Seconds) + by
	}
	return fmt.Sprintf("never%s: it ends at %.0f °C", by, h.WarmUp.Final-zeroCelsius)
}

// touched is what a hand meets.
func touched(h *machine.Housed) string {
	if !h.Walled {
		return ""
	}
	text := fmt.Sprintf("%.0f °C, at most %.0f °C where it is hottest; ", h.Loss.Surface-zeroCelsius, h.Loss.SurfaceHigh-zeroCelsius)
	for _, t := range h.Touch {
		if t.Passed {
			return text + fmt.Sprintf("a hand that stays for %s may burn (from %.0f °C, from memory)", Duration(t.Seconds), t.Limit-zeroCelsius)
		}
	}
	return text + "no burn by touch is known from there (limits from memory)"
}

// aired is where the air comes from and how much of it there is.
func (m *Machine) aired(i int) string {
	h, c := &m.Chambers[i], &m.Stated.Chambers[i]
	from := [...]string{machine.RoomAir: "from the room", machine.Supplied: "supplied dry", machine.Once: "from the room, once through the desiccant", machine.Loop: "round and round over the desiccant"}[c.Source]
	w := &h.Water
	text := fmt.Sprintf("%s %s, dew point %s", litres(w.Flow), from, dewed(w.Supply.Vapour(m.Stated.Room.Pressure)))
	if w.Strands > 1 {
		text += fmt.Sprintf(", for %s strands", Given(w.Strands))
	}
	return text
}

// dewed prints a dew or frost point; that of air without vapour is none.
func dewed(vapour float64) string {
	const none = 1e-3 // [Pa]
	if vapour < none {
		return "none"
	}
	return fmt.Sprintf("%.0f °C", humidair.DewPoint(vapour)-zeroCelsius)
}

func watered(w *machine.Water) string {
	text := "the air brings " + perHour(w.Supply.Water())
	if w.Leak.Dry > 0 {
		text += ", what leaks in " + perHour(w.Leak.Water())
	}
	if w.Given < 0 {
		return text + "; the strand takes up " + perHour(-w.Given)
	}
	return text + "; the strand gives " + perHour(w.Given)
}
