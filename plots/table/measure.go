package table

import (
	"fmt"
	"strings"

	"strandry/diffusion"
)

// measuring says in plain words how an unknown is measured.
func measuring(unknown string, m *diffusion.Design) string {
	switch unknown {
	case diffusion.UnknownDiffusivity:
		return "Dry a few metres of the strand until its weight stands still, hang it loose in moving air of a known humidity at the temperature of the dryer, and weigh it " +
			"again and again: if half of the gain is there after a time t, D = 0.063 r²/t, r the radius (Crank 1975, a cylinder without a film)."
	case diffusion.UnknownActivation:
		return "The weighing that gives the diffusivity, at two temperatures as far apart as the strand and the dryer allow: how the two diffusivities differ tells it. Best is to " +
			"weigh at the temperature of the dryer itself, which makes it matter little."
	case diffusion.UnknownBeta:
		return "The weighing that gives the diffusivity, once in nearly dry and once in humid air: how the two diffusivities differ tells it."
	case diffusion.UnknownIsotherm:
		return "Leave a weighed dry strand in a shut jar over a saturated salt with some of it undissolved (at 25 °C: magnesium chloride 33 %, sodium chloride 75 % humidity, Greenspan 1977) until its weight " +
			"stands still, for weeks at room temperature: what it gained over its dry weight is the content at that humidity."
	case diffusion.UnknownMixing:
		return "The jar over a saturated salt at two temperatures: how the contents at the same humidity differ tells it."
	case diffusion.UnknownFilm:
		return "Measure the speed of the air at the strand; or put a fine thermocouple in a piece of strand, bring it from the cold into the air of the zone, and time how it warms."
	case diffusion.UnknownMouths:
		return "Put a small hygrometer into the bore, in the middle and near each mouth, with the strand running."
	case diffusion.UnknownLimit:
		return fmt.Sprintf("Condition pieces of strand to a row of contents from %s to %s, check them on the scale, print the same test piece from each, and see (for the moulding limit: break) from which on it suffers.",
			Limit(m.Limit/2), Limit(2*m.Limit))
	}
	return "It is one that the scenario calls uncertain: " + instrument(unknown)
}

// instrument says with what a key of a scenario is measured.
func instrument(key string) string {
	parts := strings.Split(key, ".")
	switch last := parts[len(parts)-1]; {
	case strings.HasSuffix(last, "temperature"):
		return "a thermocouple in the air beside the strand, at several places."
	case last == "humidity" || last == "dew_point" || last == "vapour_pressure":
		return "a hygrometer where the strand runs, checked over a saturated salt before."
	case last == "moisture":
		return "weigh some metres of strand, dry them until the weight stands still, and weigh again."
	case last == "speed" && parts[0] == "feed":
		return "mark the strand and time a metre of it."
	case last == "speed" || last == "flow":
		return "an anemometer or a flow meter at the inlet."
	case last == "diameter" || last == "length" || last == "bore" || last == "pitch":
		return "a micrometer or a tape, at several places."
	}
	return "measure it where the strand runs."
}
