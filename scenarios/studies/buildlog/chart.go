package buildlog

import (
	"context"
	"fmt"
	"math"
	"slices"

	"strandry/diffusion"
	"strandry/scenarios"
	"strandry/scenarios/studies/needed"
	"strandry/scenarios/studies/sweep"
)

// chartValues are how many on the axes of the map: fewer where a cover keeps its place, since each march takes ten times as long then. What lies between the values is told by
// the figure.
func chartValues(s *scenarios.Scenario) (lengths, feeds int) {
	if slices.ContainsFunc(s.Model.Path, func(z diffusion.Zone) bool { return z.Contact.Fixed() }) {
		return 24, 18
	}
	return 32, 24
}

// chart is [Chart] for the design.
func (v *Survey) chart(ctx context.Context, s *scenarios.Scenario) {
	met, _ := v.Length.Least()
	var err error
	if v.Map, err = Chart(ctx, s, v.Zone, met); err != nil {
		v.Map, v.MapReason = nil, err.Error()
	}
}

// Chart maps the moisture over a zone's length and the feed, both by ratios around what the scenario states, the feed over [needed.Around] as in the lengths needed, and with the least
// length that meets the limit, if it is known [m]; zero where it is not.
func Chart(ctx context.Context, s *scenarios.Scenario, zone int, met float64) (*sweep.Grid, error) {
	feed := s.FeedKey()
	length, _ := s.Key(s.ZoneKey(zone, "length"))
	from, to := lengthSpan(s, zone, met)
	lengths, feeds := chartValues(s)
	varied, err := s.Varied(axis(s, length, from, to, lengths), axis(s, feed, feed.Value/needed.Around, feed.Value*needed.Around, feeds))
	if err != nil {
		return nil, err
	}
	return sweep.ForFigures(ctx, varied)
}

// lengthSpan holds the zone's own length, what can be built and, if it is not too far off, the
// length that meets the limit [m].
func lengthSpan(s *scenarios.Scenario, zone int, met float64) (from, to float64) {
	own, longest := s.Model.Path[zone].Length, s.LongestOf(zone)
	from, to = min(own, longest)/5, max(own, longest)*2
	if met > 0 {
		const far, wide = 20, 5
		from, to = min(from, max(met/wide, from/far)), max(to, min(met*wide, to*far))
	}
	return from, to
}

// axis writes an axis by ratios, its ends rounded outwards to 1, 2 or 5 times a power of ten.
func axis(s *scenarios.Scenario, k scenarios.Key, from, to float64, count int) string {
	from, to = round(from, false), round(to, true)
	if low, high, ok := s.Limits(k); ok {
		from, to = max(from, low), min(to, high)
	}
	const digits = 12
	return fmt.Sprintf("%s=%s..%s:%d:log", k.Name, k.Setting(from, digits).Value, k.Setting(to, digits).Value, count)
}

func round(x float64, up bool) float64 {
	power := math.Pow(10, math.Floor(math.Log10(x)))
	const slack = 1e-9
	out := power
	for _, step := range [...]float64{1, 2, 5, 10} {
		switch {
		case up && step*power >= x*(1-slack):
			return step * power
		case !up && step*power <= x*(1+slack):
			out = step * power
		}
	}
	return out
}
