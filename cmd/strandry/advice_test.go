package main

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// What run says would do is done as it is printed, key by key, and comes out as it was said.
func TestPrintedAdviceHolds(t *testing.T) {
	args := []string{"run", "--demo", "lamp-shade", "--set", "build.longest=90 m"}
	text := unwrapped(mustAnswer(t, args...))
	start := regexp.MustCompile(`Two changes together would do \(dry (\d+) times in 100\): `).FindStringSubmatchIndex(text)
	require.NotNil(t, start, text)
	odds, advice := text[start[2]:start[3]], text[start[1]:]
	advice, _, _ = strings.Cut(advice, "would do too")
	settings := regexp.MustCompile(`[(]([^()]+ = "[^"]+")[)]`).FindAllStringSubmatch(advice, -1)
	require.Len(t, settings, 2, advice)
	for _, set := range settings {
		args = append(args, "--set", set[1])
	}
	after := unwrapped(mustAnswer(t, args...))
	require.Contains(t, after, "DRY: within the limit "+odds+" times in 100")
	require.NotContains(t, after, "would do")
	d := decoded(t, append(slices.Clone(args), "--json")...)
	require.Equal(t, []any{"dry", []any{}, []any{}}, []any{at(t, d, "verdict"), at(t, d, "advice"), at(t, d, "nearest")})

	status, _, errOut := call("run", "--set", "zone.drum.lenght=3 m")
	require.Equal(t, misused, status)
	require.Contains(t, errOut, `did you mean "zone.drum.length"?`)
}
