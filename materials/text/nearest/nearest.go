// Package nearest finds the allowed name that a misspelt one most likely meant.
//
// The measure is the number of single-character slips: insertions, deletions,
// replacements and swaps of neighbours (the "optimal string alignment" form of
// the distance of Damerau, Communications of the ACM 7:171, 1964). Case, hyphens,
// underscores and spaces are not counted as slips. It knows nothing of meaning:
// "nylon" is not near "pa6".
package nearest

import (
	"cmp"
	"slices"
	"strings"
)

// longest bounds the work on absurdly long names; longer ones have no neighbour.
const longest = 64

// Name returns the member of allowed closest to given, or "" when none is
// within a third of its length (at least one slip). The first of equals wins.
func Name(given string, allowed []string) string {
	best, bestSlips := "", longest
	for _, candidate := range allowed {
		a, b := []rune(plain(given)), []rune(plain(candidate))
		if len(a) == 0 || len(a) > longest || len(b) > longest {
			continue
		}
		limit := max(1, (max(len(a), len(b))+1)/3)
		slips := distance(a, b)
		if len(b) == 1 && slips > 0 && a[0] != b[0] {
			continue // any letter is one slip from any other
		}
		if slips <= limit && slips < bestSlips {
			best, bestSlips = candidate, slips
		}
	}
	return best
}

func plain(name string) string {
	return strings.NewReplacer("-", "", "_", "", " ", "").Replace(strings.ToLower(name))
}

// distance counts the slips between a and b, three rows of the table at a time.
func distance(a, b []rune) int {
	before := make([]int, len(b)+1)
	last := make([]int, len(b)+1)
	row := make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}

// Keys returns up to most of the allowed dotted keys that have the most parts in common with the given one, such as
// "zone.drum.length" for "drum.lenght"; the last part counts twice. None where no part is near. The first of equals wins.
func Keys(given string, allowed []string, most int) []string {
	if len(given) > 4*longest {
		return nil
	}
	likeness := map[string]float64{}
	var out []string
	for _, key := range allowed {
		if likeness[key] = alike(strings.Split(given, "."), strings.Split(key, ".")); likeness[key] > 0 {
			out = append(out, key)
		}
	}
	slices.SortStableFunc(out, func(a, b string) int { return cmp.Compare(likeness[b], likeness[a]) })
	return out[:min(most, len(out))]
}

// alike is the share of the parts that two keys have in common, in their order.
func alike(given, key []string) float64 {
	last := len(key) - 1
	common, from := 0, 0
	for _, part := range given {
		i := slices.Index(key[from:], part)
		if i < 0 {
			i = slices.IndexFunc(key[from:], func(other string) bool { return Name(part, []string{other}) != "" })
		}
		if i < 0 {
			continue
		}
		common, from = common+1, from+i+1
		if from > last {
			common++
		}
	}
	return float64(common) / float64(len(given)+len(key))
}
