package prove

import (
	"fmt"
	"math"

	"strandry/materials"
)

const (
	sorptionFamily = "sorption"
	room           = 296.15 // [K]
)

func gab(monolayer, c, k float64) materials.Sorption {
	return materials.Sorption{Form: materials.GAB, Monolayer: sure(monolayer), C: sure(c), K: sure(k), Reference: room}
}

// sorption are isotherms, both ways, and their temperature.
func sorption() []Check {
	forms := origin{sorptionFamily, "GAB: van den Berg & Bruin (1981); BET: Brunauer, Emmett & Teller (1938), K = 1; computed (independent code)",
		Transcribed, absolute(1e-10, "ten decimals")}
	inverse := origin{sorptionFamily, "the same, from content back to activity", Computed, absolute(1e-8, "ten decimals of a content of a few hundredths")}
	s, bet := gab(0.02, 8, 0.75), gab(0.02, 8, 1)
	var out []Check
	for _, r := range []struct{ a, content float64 }{{0.05, 0.0049376366}, {0.3, 0.0180394613}, {0.5, 0.0264827586}, {0.9, 0.0580450118}} {
		name := fmt.Sprintf("GAB, a = %g", r.a)
		out = append(out,
			forms.plain(name, "content", "kg/kg", r.content, func() float64 { return s.Content(r.a, room) }),
			inverse.plain(name, "activity", "-", r.a, func() float64 { return s.Activity(r.content, room) }))
	}
	for _, r := range []struct{ a, content float64 }{{0.1, 0.0104575163}, {0.3, 0.0221198157}} {
		out = append(out, forms.plain(fmt.Sprintf("BET, a = %g", r.a), "content", "kg/kg", r.content, func() float64 { return bet.Content(r.a, room) }))
	}
	slope := origin{sorptionFamily, "GAB: the initial slope is the product of monolayer, C and K, by hand", Transcribed, relative(1e-12, "rounding")}
	two := materials.Sorption{Form: materials.TwoTerm, Linear: sure(0.052), Power: sure(0.046), Exponent: sure(6), Reference: room}
	hand := origin{sorptionFamily, "two terms at a = 0.5: 0.052/2 + 0.046/64, by hand", Transcribed, relative(1e-12, "rounding")}
	return append(append(out,
		slope.plain("GAB, a = 0", "dC/da", "kg/kg", 0.12, func() float64 { return 1 / s.ActivitySlope(0, room) }),
		hand.plain("two-term", "content", "kg/kg", 0.02671875, func() float64 { return two.Content(0.5, room) }),
		hand.plain("two-term", "activity", "-", 0.5, func() float64 { return two.Activity(0.02671875, room) })), warmSorption()...)
}

func warmSorption() []Check {
	measured := origin{sorptionFamily, "polyetherimide, 1.39 % at 20 °C and 1.50 % at 100 °C, mixing 0.9 kJ/mol: J. Appl. Polym. Sci. 77 (2000) 1439",
		Published, relative(0.012, "two contents and an enthalpy of two and three digits, 0.4 % each")}
	hand := origin{sorptionFamily, "van 't Hoff: an enthalpy that doubles the content from 296.15 to 350 K, by hand", Transcribed, relative(1e-12, "rounding")}
	henry := func(saturation, enthalpy, reference float64) materials.Sorption {
		return materials.Sorption{Form: materials.Henry, Saturation: sure(saturation), MixingEnthalpy: sure(enthalpy), Reference: reference}
	}
	return []Check{
		measured.plain("100 °C", "saturation", "kg/kg", 0.0150, func() float64 { s := henry(0.0139, 900, 293.15); return s.Content(1, 373.15) }),
		hand.plain("350 K", "saturation", "kg/kg", 0.02, func() float64 {
			s := henry(0.01, 8.314462618*math.Ln2/(1/room-1/350.0), room)
			return s.Content(1, 350)
		}),
	}
}
