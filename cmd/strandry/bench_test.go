package main

import (
	"bytes"
	"context"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// BenchmarkVerbs is what a person waits for, each verb on two demonstrations, figures and pages included; what DEVELOPERS.md tells is of whole processes.
func BenchmarkVerbs(b *testing.B) {
	lengths := map[string]string{"clear-cover": "zone.oven.length", "winch-drum": "zone.drum.length"}
	for demo, key := range lengths {
		for name, args := range map[string][]string{
			"run": {"run"}, "size": {"size", "--for", key}, "suits": {"suits"}, "doubt": {"doubt"}, "keeps": {"keeps"}, "plot": {"plot"}, "buildlog": {"buildlog"},
			"map":    {"sweep", "--quick", "--vary", key + "=1 m..200 m:60:log", "--vary", "feed.speed=0.5 mm/s..8 mm/s:60:log"},
			"sketch": {"sweep", "--sketch", "--vary", key + "=1 m..200 m:60:log", "--vary", "feed.speed=0.5 mm/s..8 mm/s:60:log"},
		} {
			b.Run(demo+"/"+name, func(b *testing.B) {
				for b.Loop() {
					all := append(args[:len(args):len(args)], "--demo", demo)
					switch name {
					case "plot", "buildlog", "map", "sketch":
						all = append(all, "-o", filepath.Join(b.TempDir(), name))
					}
					var out, errOut bytes.Buffer
					require.Zero(b, run(context.Background(), all, &out, &errOut), errOut.String())
				}
			})
		}
	}
}
