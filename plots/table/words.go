package table

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"strandry/diffusion"
)

// Limit prints the wettest content that prints well [kg/kg].
func Limit(content float64) string { return Given(100*content) + " %" }

// say puts a warning in words.
func say(w diffusion.Warning, m *diffusion.Design) string {
	name := m.Material.Name
	switch w.Concern {
	case diffusion.DiffusivityRange:
		return fmt.Sprintf("%s: at %s the diffusivity of %s is extrapolated: its data end at %s.", w.Zone, Celsius(w.Value), name, Celsius(w.Limit))
	case diffusion.IsothermTemperature:
		return fmt.Sprintf("%s: at %s the sorption isotherm of %s is extrapolated: its data end at %s.", w.Zone, Celsius(w.Value), name, Celsius(w.Limit))
	case diffusion.IsothermActivity:
		return fmt.Sprintf("%s: a water activity of %s lies beyond the isotherm's data, which end at %s.", w.Zone, Significant(w.Value, 2), Significant(w.Limit, 2))
	case diffusion.HotterThanUsual:
		return fmt.Sprintf("%s: %s is above the usual highest drying temperature of %s, %s. The strand may stick, oxidise or lose its shape; try a short piece first.", w.Zone, Celsius(w.Value), name, Celsius(w.Limit))
	case diffusion.AirSetsFloor:
		return fmt.Sprintf("The air is moist: left in the driest zone for ever the strand would stay at %s, %s its limit of %s, at the medians of what is known.", Percent(w.Value), Times(w.Value/w.Limit), Limit(w.Limit))
	case diffusion.Evaporation:
		act := "evaporation cools"
		if w.Value < 0 {
			act = "water taken up warms"
		}
		return fmt.Sprintf("%s: %s the strand by some %s K on average; this is counted.", w.Zone, act, Significant(math.Abs(w.Value), 2))
	case diffusion.BoreMouths:
		return fmt.Sprintf("The strand drags its own air through the bore. Vapour that finds its way in at the mouths is not followed; if the air in there were renewed without limit, the nozzle would see %s (limit %s). The truth lies between, and the odds draw it from there; the number at the nozzle is that of shut mouths.", Percent(w.Value), Limit(w.Limit))
	case diffusion.SaturatedAir:
		return fmt.Sprintf("%s: the air would leave at a vapour pressure of %s, above saturation (%s): water would condense. Give it more air.", w.Zone, pressure(w.Value), pressure(w.Limit))
	case diffusion.CondensingAir:
		return fmt.Sprintf("%s: the air would leave at a vapour pressure of %s past a strand that enters cold (saturation there: %s): it would give water back. Give it more air or let it run with the strand.", w.Zone, pressure(w.Value), pressure(w.Limit))
	case diffusion.Dew:
		return fmt.Sprintf("%s: the strand enters at %s, below the dew point of the air (%s): dew forms on it. Its surface is held no wetter than saturated air makes it; the dew itself and the heat that it brings are left out.", w.Zone, Celsius(w.Value), Celsius(w.Limit))
	case diffusion.SupersaturatedStart:
		return fmt.Sprintf("The strand sets off with %s, more than the %s that %s holds in saturated air by this data: what lies above is doubtful, and may be water on its surface.", Percent(w.Value), Percent(w.Limit), name)
	case diffusion.UnmeasuredDiffusivity:
		return fmt.Sprintf("The diffusivity of %s is %s, not a reviewed measurement that was read: take the interval, not the number.", name, kind(m.Material.Diffusivity.ReferenceValue.Kind))
	case diffusion.NumericalDoubt:
		return fmt.Sprintf("The numerical error (%s) is larger than the distance to the limit (%s): refine [numerics] before you trust the verdict.", Percent(w.Value), Percent(w.Limit))
	}
	return fmt.Sprintf("%s: %s.", w.Zone, strings.TrimSuffix(w.Text, "."))
}

// AirRule says what stays of the air where a study or an advice changes the temperature of a zone; held are the zones
// whose humidity is held.
func AirRule(held []string) string {
	if len(held) == 0 {
		return "At another temperature the air of a zone keeps the vapour that it is supplied with."
	}
	return "At another temperature the air of " + strings.Join(held, ", ") + " keeps its relative humidity, which a controller holds; air given otherwise keeps the vapour that it is supplied with."
}

// Cautions lists what can hurt the builder or the user of a path like this one.
func Cautions(m *diffusion.Design) []string {
	out := []string{
		"Hot surfaces and hot air burn. Heaters can start a fire: fit a thermal cut-out that needs no software, keep combustible things away, never leave it running alone.",
		"Mains wiring is for a licensed electrician; follow your local electrical and fire codes, which come before anything said here.",
		"Hot plastic gives off fumes: ventilate the room.",
	}
	if slices.ContainsFunc(m.Path, func(z diffusion.Zone) bool { return z.Air.VapourPressure < desiccated }) {
		out = append(out, "Air this dry comes from a desiccant or a compressor: do not breathe desiccant dust, and follow the maker's safety sheet when you regenerate it.")
	}
	for _, c := range m.Material.Cautions {
		out = append(out, fmt.Sprintf("%s (%s)", c.Text, origin(c.Kind, c.Source)))
	}
	return out
}

// desiccated is the vapour pressure below which air was dried on purpose [Pa]: a
// dew point of about 0 °C.
const desiccated = 600
