package words

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestWords(t *testing.T) {
	require.Equal(t, "0.2\u00a0%", Percent(0.002))
	require.Equal(t, "0\u00a0%", Percent(-1e-12))
	require.Equal(t, "80\u00a0°C", Celsius(353.15))
	require.Equal(t, "67\u00a0mm", Metres(0.0668))
	require.Equal(t, "1200\u00a0m", Metres(1226))
	require.Equal(t, "12.6\u00a0m", Place(12.6))
	require.Equal(t, "16\u00a0min", Time(960))
	require.Equal(t, "5.1\u00a0days", Time(5.06*86400))
	require.Equal(t, "0.2\u00a0% (0.1 to 0.39)", PercentSpan(0.002, 0.001, 0.0039))
	require.Equal(t, "67\u00a0mm", Place(0.0668))
	require.Equal(t, "2.15\u00a0mm/s", Speed(0.00215))
	require.Equal(t, []string{"30\u00a0s", "5.1\u00a0h", "2\u00a0years"}, []string{Time(30), Time(18300), Time(2 * 365.25 * 86400)})
	require.Equal(t, []string{"1.27\u00a0times", "5.7\u00a0times"}, []string{Times(1.268), Times(5.69)})
	require.Equal(t, []string{"1200", "-1200", "12\u00a0345.6", "-12\u00a0345"}, []string{Spaced("1200"), Spaced("-1200"), Spaced("12345.6"), Spaced("-12345")})
	require.Equal(t, []string{"Öl", "Ölig", "Öli…"}, []string{Clipped("Öl", 4), Clipped("Ölig", 4), Clipped("Öliges", 4)})
}
