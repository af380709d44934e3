package moisture

import (
	"math"
	"slices"

	"strandry/plots/palette"
)

// bands are the steps of a filled map of moisture.
type bands struct {
	levels     []float64 // rising [kg/kg dry]
	limit      int       // index of the limit among them; -1 where it is off the map
	limitValue float64   // [kg/kg dry]
	below      int       // bands below the limit
	colors     []palette.Colour
}

// mostLevels is how many contours a map can bear.
const mostLevels = 9

// bandsOf steps by 1, 2, 5 between the driest and the wettest value, and at the
// limit; the steps nearest to the limit give way to it, and none is at the start.
func bandsOf(low, high, limit, start float64) bands {
	b := bands{limit: -1, limitValue: limit}
	bottom := math.Max(low, math.Max(high, limit)*1e-4)
	for _, steps := range [...][]float64{{1, 2, 5}, {1, 3}, {1}} {
		b.levels = nil
		for e := math.Floor(math.Log10(bottom)); e <= math.Ceil(math.Log10(high)); e++ {
			for _, m := range steps {
				level := m * math.Pow(10, e)
				near := level > limit/1.3 && level < limit*1.3 || level > start/1.03 && level < start*1.03
				if level > bottom && level < high*0.995 && !near {
					b.levels = append(b.levels, level)
				}
			}
		}
		if len(b.levels) <= mostLevels {
			break
		}
	}
	if limit > low && limit < high {
		b.limit, _ = slices.BinarySearch(b.levels, limit)
		b.levels = slices.Insert(b.levels, b.limit, limit)
	}
	b.color(high)
	return b
}

// color gives each band its colour: sand below the limit, blue above. high is the wettest value.
func (b *bands) color(high float64) {
	below := b.limit + 1
	if b.limit < 0 && high <= b.limitValue {
		below = len(b.levels) + 1
	}
	b.below = below
	above := len(b.levels) + 1 - below
	for i := range below {
		b.colors = append(b.colors, palette.Mix(palette.AtLimitDry, palette.Dry.Mark(), float64(below-i-1)/math.Max(float64(below), 3)))
	}
	for i := range above {
		b.colors = append(b.colors, palette.Mix(palette.AtLimitWet, palette.Wet.Mark(), float64(i)/math.Max(float64(above-1), 3)))
	}
}

// tone is a colour that shows on both bands beside a level.
func (b *bands) tone(level int) palette.Colour {
	if palette.Luminance(b.colors[level+1]) < 0.25 {
		return palette.Paper
	}
	return palette.Ink
}
