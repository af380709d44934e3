package main

import (
	"io"
	"os"
	"time"

	"github.com/schollz/progressbar/v3"
	"golang.org/x/term"
)

// progress shows how far a long work has come, on a terminal only.
type progress struct{ bar *progressbar.ProgressBar }

// newProgress starts a bar of so many steps, some of which were done before, with the rate and the time left.
func newProgress(out io.Writer, done, steps int, unit string) progress {
	file, ok := out.(*os.File)
	if !ok || !term.IsTerminal(int(file.Fd())) {
		return progress{}
	}
	return barOn(out, done, steps, unit)
}

// barOn draws the bar on a terminal.
func barOn(out io.Writer, done, steps int, unit string) progress {
	bar := progressbar.NewOptions(steps, progressbar.OptionSetWriter(out), progressbar.OptionShowCount(),
		progressbar.OptionShowIts(), progressbar.OptionSetItsString(unit), progressbar.OptionSetPredictTime(true),
		progressbar.OptionThrottle(100*time.Millisecond), progressbar.OptionClearOnFinish(), progressbar.OptionSetWidth(30))
	_ = bar.Set(done) // they count in the rate as well, for the few seconds over which it is taken
	return progress{bar}
}

func (p progress) step() {
	if p.bar != nil {
		_ = p.bar.Add(1) // a bar that cannot be drawn is no reason to stop
	}
}

// end takes the bar away.
func (p progress) end() {
	if p.bar != nil {
		_ = p.bar.Clear()
	}
}
