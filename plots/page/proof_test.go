package page

import (
	"bytes"
	"context"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"slices"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"strandry/plots/table"
	"strandry/scenarios/validation/prove"
)

// proof is a copy of what the checks found, which are carried out once.
func proof(t *testing.T) *table.Proof {
	t.Helper()
	p, err := proven()
	require.NoError(t, err)
	p.Results = slices.Clone(p.Results)
	return &p
}

var proven = sync.OnceValues(func() (p table.Proof, err error) {
	p.Version = "0.0.0"
	if p.Results, err = prove.Run(context.Background(), 2); err != nil {
		return p, err
	}
	p.Orders, err = prove.Convergence()
	return p, err
})

func TestProofIsOneWholePage(t *testing.T) {
	p := proof(t)
	out, err := OfProof(p)
	require.NoError(t, err)
	again, err := OfProof(p)
	require.NoError(t, err)
	require.True(t, bytes.Equal(out, again))

	d := xml.NewDecoder(bytes.NewReader(out))
	d.Strict, d.Entity = true, xml.HTMLEntity
	for {
		if _, err = d.Token(); err != nil {
			break
		}
	}
	require.True(t, errors.Is(err, io.EOF), "%v", err)
	page := string(out)
	require.NotRegexp(t, `(?i)https?://|<script|url\(|@import`, page)
	require.Contains(t, page, "PASSED")
	require.NotContains(t, page, "FAILED")
	require.Len(t, regexp.MustCompile(`<section id="family-`).FindAllString(page, -1), len(p.Families()))
	require.Equal(t, 2, bytes.Count(out, []byte("src=\"data:image/")), "the orders, and the evidence")
}

func TestProofShowsFailures(t *testing.T) {
	p := proof(t)
	p.Results[3].Got, p.Results[3].Difference = math.NaN(), math.NaN()
	p.Results[3].Err = errors.New("<b>no</b>")
	p.Results[7].Difference = 1
	out, err := OfProof(p)
	require.NoError(t, err)
	page := string(out)
	require.Contains(t, page, "What failed")
	require.Contains(t, page, "&lt;b&gt;no&lt;/b&gt;")
	require.Contains(t, page, fmt.Sprintf("%d of %d checks passed", len(p.Results)-2, len(p.Results)))
	require.NotContains(t, regexp.MustCompile(`data:image/png;base64,[^"]*`).ReplaceAllString(page, ""), "NaN") // in a picture the letters may stand
}

func TestProofWithoutPlots(t *testing.T) {
	p := proof(t)
	p.Orders = nil
	_, err := OfProof(p)
	require.Error(t, err)
	p.Unmeasured = "the march stalled"
	require.False(t, p.Whole())
	out, err := OfProof(p)
	require.NoError(t, err)
	require.Contains(t, string(out), "the march stalled")
	require.Contains(t, string(out), "FAILED")
}
