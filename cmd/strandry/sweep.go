package main

import (
	"context"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"strandry/plots/figure"
	"strandry/plots/table"
	"strandry/scenarios"
	"strandry/scenarios/sweep"
)

// sweeping is what the flags of a sweep say.
type sweeping struct {
	demo, folder        string
	vary                []string
	again, force, quick bool
	cores               int
}

func sweepCommand() *cobra.Command {
	var f sweeping
	c := &cobra.Command{
		Use:   "sweep [FILE] -o DIR",
		Short: "How wet over a grid of lengths, speeds, materials, ...?",
		Long: `sweep runs the scenario for every combination of the values on its axes, the
[[vary]] of the file, and writes the table of answers to DIR as sweep.csv (people's
units) and sweep.json (SI), with figures and the scenario beside them.

Each row is kept as soon as it is finished: a sweep that was stopped, by Ctrl-C or
by a power cut, goes on with --continue and ends in the same numbers to the bit.`,
		Args: fileOrDemo,
		RunE: func(c *cobra.Command, args []string) error {
			switch {
			case f.folder == "":
				return errors.New("sweep needs -o DIR, the folder for its files")
			case f.again && f.force:
				return errors.New("--continue and --force exclude each other")
			case f.cores < 0:
				return errors.New("--cores: 1 or more, or 0 for all")
			}
			s, err := scenario(args, f.demo)
			if err != nil {
				return failure{err}
			}
			if len(f.vary) > 0 {
				if s, err = s.Varied(f.vary...); err != nil {
					return err
				}
			}
			return wrapped(f.run(c.Context(), s, c.OutOrStdout(), c.ErrOrStderr()))
		},
	}
	flags := c.Flags()
	demoFlag(c, &f.demo)
	flags.StringVarP(&f.folder, "output", "o", "", "the folder `DIR` for the files; made if there is none")
	flags.StringArrayVar(&f.vary, "vary", nil, "an `AXIS` in place of the file's, up to three: \"zone.drum.length=0.5 m..40 m:40:log\", \"strand.material=pa6, pa12\"")
	flags.BoolVar(&f.again, "continue", false, "go on with the unfinished sweep in DIR, if there is one")
	flags.BoolVar(&f.force, "force", false, "replace what an earlier sweep left in DIR")
	flags.BoolVar(&f.quick, "quick", false, "central diffusivity only: no span, no verdict, a third of the time or less")
	flags.IntVar(&f.cores, "cores", 0, "how many cores to use; 0 for all. The numbers do not depend on it")
	return c
}

// Files of a sweep in its folder. The table comes last: where it is, the sweep is finished.
const (
	partialFile = "sweep.partial"
	tableFile   = "sweep.csv"
	dataFile    = "sweep.json"
	inputFile   = "scenario.toml"
)

func (f *sweeping) in(file string) string { return filepath.Join(f.folder, file) }

func (f *sweeping) run(ctx context.Context, s *scenarios.Scenario, out, errOut io.Writer) error {
	work := sweep.Sweep{Scenario: s, Quick: f.quick, Workers: f.cores}
	if work.Workers == 0 {
		work.Workers = runtime.GOMAXPROCS(0)
	}
	o, err := work.Origin(version)
	if err != nil {
		return fmt.Errorf("%s: %w", s.File, err)
	}
	if same(s.File, f.in(inputFile)) {
		return fmt.Errorf("%s is the scenario itself, which the sweep would replace: name another folder", s.File)
	}
	if err := makeFolder(f.folder); err != nil {
		return err
	}
	if done, err := f.finished(o); err != nil || done {
		if done && err == nil {
			fmt.Fprintf(out, "%s holds this sweep already, finished: nothing to do.\n", f.folder)
		}
		return err
	}
	g, err := f.sweep(ctx, &work, o, errOut)
	if err != nil {
		return err
	}
	answer := &table.Sweep{Title: s.Title, File: s.File, Version: version, Origin: o, Grid: g}
	undrawn, err := f.write(answer, s)
	if err != nil {
		return err
	}
	if err := answer.WriteText(out); err != nil {
		return err
	}
	for _, why := range undrawn {
		fmt.Fprintf(out, "%s\n", why)
	}
	_, err = fmt.Fprintf(out, "Written to %s: %s\n", f.folder, strings.Join(append([]string{tableFile, dataFile, inputFile}, answer.Figures...), ", "))
	return err
}

// finished tells whether the folder holds this very sweep. Another one there is an
// error, unless it may be replaced.
func (f *sweeping) finished(o sweep.Origin) (bool, error) {
	whole, part := exists(f.in(tableFile)), exists(f.in(partialFile))
	switch {
	case f.force:
		return false, nil
	case !whole && !part:
		return false, f.strangers()
	case part && !f.again:
		return false, fmt.Errorf("%s holds an unfinished sweep: --continue goes on with it, --force starts again", f.folder)
	case part:
		return false, nil // what it holds is looked at when it is opened
	case !f.again:
		return false, fmt.Errorf("%s holds a finished sweep: --force replaces it", f.folder)
	}
	earlier, _, err := f.earlier()
	if err != nil {
		return false, fmt.Errorf("%s holds a finished sweep, but %w: --force replaces it", f.folder, err)
	}
	if why := o.Differs(earlier); why != "" {
		return false, fmt.Errorf("%s holds another sweep that is finished: %s; --force replaces it", f.folder, why)
	}
	return true, f.whole(o.Rows)
}

// whole refuses a finished table that has lost rows since.
func (f *sweeping) whole(rows int) error {
	file, err := os.Open(f.in(tableFile))
	if err != nil {
		return err
	}
	defer file.Close()
	lines := csv.NewReader(file)
	lines.ReuseRecord = true
	for found := -1; ; found++ { // the heads are no row
		switch _, err := lines.Read(); {
		case errors.Is(err, io.EOF) && found == rows:
			return nil
		case err != nil:
			return fmt.Errorf("%s is damaged, %d of %d rows can be read: --force makes it anew", f.in(tableFile), max(found, 0), rows)
		}
	}
}

// strangers refuses a folder without a sweep that holds files which one would replace.
func (f *sweeping) strangers() error {
	for _, name := range []string{inputFile, dataFile} {
		if exists(f.in(name)) {
			return fmt.Errorf("%s exists already and belongs to no sweep: name another folder, or --force replaces it", f.in(name))
		}
	}
	return nil
}

// earlier tells of the finished sweep in the folder its origin and its figures.
func (f *sweeping) earlier() (sweep.Origin, []string, error) {
	file, err := os.Open(f.in(dataFile))
	if err != nil {
		return sweep.Origin{}, nil, err
	}
	defer file.Close()
	return table.SweepOrigin(file)
}

// sweep runs and keeps each row; what it leaves when it fails can be continued.
func (f *sweeping) sweep(ctx context.Context, work *sweep.Sweep, o sweep.Origin, errOut io.Writer) (*sweep.Grid, error) {
	open := sweep.CreatePartial
	if f.again {
		open = sweep.OpenPartial
	}
	part, err := open(f.in(partialFile), o)
	if err != nil {
		return nil, err
	}
	kept := len(part.Known)
	bar := newProgress(errOut, o.Rows-kept, "rows")
	work.Known = part.Known
	work.Done = func(index int, row sweep.Row) error {
		kept++
		bar.step()
		return part.Add(index, row)
	}
	g, err := work.Run(ctx)
	bar.end()
	err = errors.Join(err, part.Close())
	if errors.Is(err, context.Canceled) {
		return nil, fmt.Errorf("strandry: interrupted; %d of %d rows are kept in %s: the same command with --continue goes on", kept, o.Rows, f.folder)
	}
	return g, err
}

// write leaves the finished files and takes away the unfinished one, and the figures of
// an earlier sweep that these do not replace. It tells which figures were not drawn.
func (f *sweeping) write(answer *table.Sweep, s *scenarios.Scenario) (undrawn []string, err error) {
	_, old, _ := f.earlier() // none, most often
	undrawn, err = f.draw(answer, s)
	if err != nil {
		return nil, err
	}
	for _, file := range []struct {
		name  string
		write func(io.Writer) error
	}{
		{inputFile, func(out io.Writer) error { return f.input(out, s) }},
		{dataFile, answer.WriteJSON},
		{tableFile, answer.WriteCSV},
	} {
		if err := writeFile(f.in(file.name), file.write); err != nil {
			return nil, err
		}
	}
	for _, name := range old {
		if name == filepath.Base(name) && !slices.Contains(answer.Figures, name) && slices.Contains([]string{".png", ".svg"}, filepath.Ext(name)) {
			_ = os.Remove(f.in(name)) // a figure too many is no reason to fail
		}
	}
	if err := os.Remove(f.in(partialFile)); err != nil {
		return nil, unwritable(f.in(partialFile), err)
	}
	return undrawn, nil
}

// draw writes the figures and notes their files.
func (f *sweeping) draw(answer *table.Sweep, s *scenarios.Scenario) (undrawn []string, err error) {
	sheets, undrawn := figure.OfSweep(answer.Grid, s, figure.Frame{Scenario: answer.Title, Version: version})
	for _, sheet := range sheets {
		for _, format := range []figure.Format{figure.PNG, figure.SVG} {
			drawing, err := figure.Encode(sheet.Figure, format)
			if err != nil {
				undrawn = append(undrawn, sheet.Name+": not drawn: "+err.Error())
				break
			}
			name := sheet.Name + "." + string(format)
			err = writeFile(f.in(name), func(out io.Writer) error { _, err := out.Write(drawing); return err })
			if err != nil {
				return nil, err
			}
			answer.Figures = append(answer.Figures, name)
		}
	}
	return undrawn, nil
}

// input repeats the scenario, with the axes that stood in place of its own.
func (f *sweeping) input(out io.Writer, s *scenarios.Scenario) error {
	for _, axis := range f.vary {
		if _, err := fmt.Fprintf(out, "# swept with --vary %q\n", axis); err != nil {
			return err
		}
	}
	_, err := out.Write(s.Document().Text())
	return err
}
