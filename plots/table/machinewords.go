package table

import (
	"fmt"
	"math"

	"strandry/diffusion/machine"
)

// brief is a warning in one line, with what to change.
func (m *Machine) brief(w machine.Warning) string {
	at := ""
	if w.Chamber != "" {
		at = w.Chamber + ": "
	}
	value, limit := w.Value, w.Limit
	switch w.Concern {
	case machine.DoesNotFit:
		return at + fmt.Sprintf("%s, the box %s: a smaller path, or a larger box", Length(value), Length(limit))
	case machine.BendsTooTight:
		return at + fmt.Sprintf("bends over %s, allowed %s: larger rollers or drum", Millimetres(value), Millimetres(limit))
	case machine.HeaterTooWeak:
		return at + fmt.Sprintf("%s of heater, %s needed: a stronger one, or insulation", watts(value), watts(limit))
	case machine.HeaterIsSmall:
		return at + fmt.Sprintf("%s of heater leave less than the margin: %s would", watts(value), watts(limit))
	case machine.NeverWarm:
		return at + fmt.Sprintf("gets no warmer than %s, wanted %s: more power, or insulation", Celsius(math.Round(value)), Celsius(limit))
	case machine.BurnsHands:
		return at + fmt.Sprintf("%s outside may burn at a touch (%s): insulate or guard it", Celsius(math.Round(value)), Celsius(math.Round(limit)))
	case machine.SlowToWarm:
		return at + fmt.Sprintf("%s to warm up: more power, or less mass", Duration(value))
	case machine.Uneven:
		return at + fmt.Sprintf("if only the air that enters is warmed, its ends differ by %s K: more air, or insulation", Significant(value, 2))
	case machine.NoHousing:
		return at + "its wall is not in the power: state its shape"
	case machine.NoFlow:
		return at + "what it takes to warm its air is not in the power: state its flow"
	}
	return m.briefOfAir(at, w)
}

// briefOfAir goes on with what concerns air, desiccant and pull.
func (m *Machine) briefOfAir(at string, w machine.Warning) string {
	value, limit := w.Value, w.Limit
	switch w.Concern {
	case machine.AirTooLittle:
		return at + fmt.Sprintf("%s of air is the limit: %s or more", litres(value), litres(limit))
	case machine.AirIdle:
		return at + fmt.Sprintf("%s of air, little is gained beyond %s: less would do", litres(value), litres(limit))
	case machine.AirBringsWater:
		return at + fmt.Sprintf("the air brings %s times the water of the strand: less air, or drier", Significant(value/limit, 2))
	case machine.LeakBringsWater:
		return at + fmt.Sprintf("the leak brings %s of water, the strand %s: tighter slots", perHour(value), perHour(limit))
	case machine.NoDesiccant:
		return at + "its air goes over a desiccant of which nothing is stated: [desiccant]"
	case machine.BedHoldsLess:
		return fmt.Sprintf("fresh desiccant holds %s, wanted %s: a drier kind, or heat it hotter", frost(value), frost(limit))
	case machine.BedIsShort:
		return fmt.Sprintf("the desiccant lasts %s: more of it, less air, or tighter slots", Duration(value))
	case machine.BedTurnsLiquid:
		return "the salt turns to brine in room air: a drip tray below it; brine corrodes"
	case machine.BedIsHot:
		return fmt.Sprintf("desiccant at %s holds less: cool the air that returns to it", Celsius(value))
	case machine.PullBeyond:
		return "the pull grows beyond all bounds: fewer bends, guides or rollers"
	case machine.PullsTooHard:
		return fmt.Sprintf("the pull may be %s N, the feeder gives %s: ball bearings, fewer guides", Significant(value, 2), Significant(limit, 2))
	case machine.StretchesHot:
		return at + fmt.Sprintf("the hot strand may stretch by %s %%: less pull, or a driven drum", Significant(100*value, 2))
	case machine.StretchUnknown:
		return at + "how stiff the hot strand is is not known: pull a piece at that heat"
	case machine.SoftensAtRest:
		return at + fmt.Sprintf("what stands in %s may soften (%s): cool it when the feed stops", Celsius(value), Celsius(limit))
	}
	return at + "look at this"
}
