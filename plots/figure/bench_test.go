package figure

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/plots/canvas"
)

// All figures in all formats.
func BenchmarkEncode(b *testing.B) {
	var sheets []Sheet
	for name, f := range all() {
		sheets = append(sheets, Sheet{name, f})
	}
	for b.Loop() {
		_, err := EncodeAll(context.Background(), sheets, canvas.Formats()...)
		require.NoError(b, err)
	}
}
