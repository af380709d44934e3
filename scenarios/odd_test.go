package scenarios

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/materials/text/strict"
)

// odd are values that people and programs leave in files.
func odd() []string {
	return []string{
		`nan`, `-inf`, `0`, `-1`, `1e308`, `true`, `""`, `"nan"`, `"0"`, `[]`, `{}`, `[{}]`, `1979-05-27`,
		`"-0 m"`, `"1e-320 m"`, `"1e308 %"`, `"100 %"`, `"0 K"`, `"300 °C"`, `"-40 °C"`, `"10 km"`, `"1 mm"`, `"0.001 mm/s"`,
		`"5 mm3/s"`, `"1 m3/s"`, `"1 s"`, `"3652 d"`, `"120 kPa"`, `"0 Pa"`, `["1 m", "nan m"]`, `"drum"`, `"pla"`, `"é.toml"`,
	}
}

// The values of two scenarios that use the whole format are replaced by odd ones, one at a
// time (every eleventh pair, to be quick): faults, or a sound model, and no panic.
func TestOddValues(t *testing.T) {
	assignment := regexp.MustCompile(`([a-z_]+) = ("[^"]*"|[0-9.e-]+)`)
	tried, accepted := 0, 0
	design, _, _ := strings.Cut(template, "[[vary]]")
	for _, text := range []string{design, withPasses} {
		plain, err := Read("plain.toml", []byte(text))
		require.NoError(t, err)
		for _, at := range assignment.FindAllStringSubmatchIndex(text, -1) {
			for _, value := range odd() {
				if tried++; tried%11 != 0 {
					continue
				}
				changed := text[:at[4]] + value + text[at[5]:]
				d, err := Parse("odd.toml", []byte(changed))
				var s *Scenario
				if err == nil {
					s, err = d.scenario(plain.found, nil)
				}
				if err != nil {
					var faults strict.Faults
					require.ErrorAs(t, err, &faults)
					require.NotContains(t, strings.ToLower(err.Error()), "%!")
					continue
				}
				accepted++
				sound(t, s)
			}
		}
	}
	require.Greater(t, accepted, 10)
}
