package table

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestObject(t *testing.T) {
	within := object{{"x", 1.5}, {"y", "<"}}
	o := object{{"b", nil}, {"a", []string(nil)}, filled("none", 0.0), filled("one", 1), {"", within}, {"c", within}, {"", object(nil)}}
	var b strings.Builder
	require.NoError(t, encode(&b, o))
	require.Equal(t, `{"b":null,"a":[],"one":1,"x":1.5,"y":"<","c":{"x":1.5,"y":"<"}}`, strings.Join(strings.Fields(b.String()), ""), "in their order")
	for _, broken := range []object{{{"x", math.NaN()}}, {{"", object{{"x", math.Inf(1)}}}}, {{"x", within}, {"y", []float64{math.NaN()}}}} {
		_, err := json.Marshal(broken)
		require.Error(t, err)
	}
	text, err := json.Marshal(object{{"", object{}}, {"a", each([]int(nil), func(*int) object { return nil })}})
	require.NoError(t, err)
	require.Equal(t, `{"a":[]}`, string(text))
}
