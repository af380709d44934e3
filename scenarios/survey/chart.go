package survey

import (
	"context"
	"fmt"
	"math"
	"runtime"

	"strandry/scenarios"
	"strandry/scenarios/size"
	"strandry/scenarios/sweep"
)

// Values on the axes of the map.
const chartLengths, chartFeeds = 32, 24

// chart maps the moisture over the zone's length and the feed, both by ratios around what the
// scenario states.
func (v *Survey) chart(ctx context.Context, s *scenarios.Scenario) {
	fail := func(err error) { v.Map, v.MapReason = nil, err.Error() }
	feed, length := s.FeedKey(), scenarios.Key{}
	for _, k := range s.Keys() {
		if k.Name == "zone."+s.Model.Path[v.Zone].Name+".length" {
			length = k
		}
	}
	const around = 8
	from, to := v.lengthSpan(s)
	varied, err := s.Varied(axis(s, length, from, to, chartLengths), axis(s, feed, feed.Value/around, feed.Value*around, chartFeeds))
	if err != nil {
		fail(err)
		return
	}
	work := sweep.Sweep{Scenario: varied, Quick: true, Workers: runtime.GOMAXPROCS(0)}
	if v.Map, err = work.Run(ctx); err != nil {
		fail(err)
	}
}

// lengthSpan holds the zone's own length, what can be built and, if it is not too far off, the
// length needed [m].
func (v *Survey) lengthSpan(s *scenarios.Scenario) (from, to float64) {
	own, longest := s.Model.Path[v.Zone].Length, s.Build.Longest
	from, to = min(own, longest)/5, max(own, longest)*2
	if a := v.Length.Answer; a != nil && a.Outcome == size.Met {
		const far = 20
		from, to = min(from, max(a.Value/3, from/far)), max(to, min(a.Value*2, to*far))
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
