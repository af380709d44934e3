package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"strandry/plots/canvas"
	"strandry/plots/figure"
	"strandry/plots/folder"
	"strandry/plots/table"
	"strandry/scenarios"
	"strandry/scenarios/studies/sweep"
)

// sweeping is what the flags of a sweep say.
type sweeping struct {
	target
	vary                 []string
	again, quick, sketch bool
	cores                int
}

func sweepCommand() *cobra.Command {
	var f sweeping
	c := onScenario(&cobra.Command{
		Use:   "sweep [FILE] -o DIR",
		Short: "How wet over a grid of lengths, speeds, materials, ...?",
		Long: `sweep tells how wet the strand is over a grid of values.

    strandry sweep my-dryer.toml -o map --vary "feed.speed=1 mm/s..5 mm/s:9"

It runs the scenario for every combination of the values on its axes, the
[[vary]] of the file, and writes the table of answers to DIR as sweep.csv
(people's units) and sweep.json (SI), with figures and the scenario beside them.

Each row is kept as soon as it is finished: a sweep that was stopped, by Ctrl-C
or by a power cut, goes on with --continue and ends in the same numbers to the
bit.

With --sketch some hundred marches stand for all rows of a grid of numbers: a
map of sixty by sixty, odds included, is there in about a second. It tells by
how much it is off, some per cent as a rule, and where a row has no answer or
its strand softens; centre and skin of the strand it leaves out.

One sweep at a time writes to a folder.` + forceRule,
	}, func(c *cobra.Command, s *scenarios.Scenario) error {
		if len(f.vary) > 0 {
			var err error
			if s, err = s.Varied(f.vary...); err != nil {
				return misuse{err}
			}
		}
		return f.run(c.Context(), s, c.OutOrStdout(), c.ErrOrStderr())
	})
	c.PreRunE = f.misused
	flags := c.Flags()
	f.flags(c, "the folder `DIR` for the files", "replace the sweep that DIR holds")
	flags.StringArrayVar(&f.vary, "vary", nil, "an `AXIS` in place of the file's, up to three: \"zone.drum.length=0.5 m..40 m:40:log\", \"strand.material=pa6, pa12\"")
	flags.BoolVar(&f.again, "continue", false, "go on with the unfinished sweep in DIR, if there is one")
	flags.BoolVar(&f.quick, "quick", false, "central diffusivity only: no span, no verdict, a third of the time or less")
	flags.BoolVar(&f.sketch, "sketch", false, "sketch the grid from some hundred marches, odds included; off by some per cent, which is told. For axes of numbers")
	flags.IntVar(&f.cores, "cores", 0, fmt.Sprintf("how many cores to use, up to %d here; 0 for all. The numbers do not depend on it", mostCores()))
	return c
}

// misused refuses flags that do not go together.
func (f *sweeping) misused(c *cobra.Command, _ []string) error {
	switch {
	case f.again && f.force:
		return errors.New("--continue and --force exclude each other")
	case f.sketch && f.quick:
		return errors.New("--sketch and --quick exclude each other: a sketch is quicker, and has the odds")
	case f.sketch && f.again:
		return errors.New("--sketch and --continue exclude each other: a sketch keeps no rows to go on from")
	case f.sketch && c.Flags().Changed("cores"):
		return errors.New("--sketch and --cores exclude each other: a sketch takes all cores")
	case f.cores < 0:
		return errors.New("--cores: 1 or more, or 0 for all")
	}
	return f.needed(c, nil)
}

// Files of a sweep in its folder. The table comes last: where it is, the sweep is finished.
const (
	partialFile = "sweep.partial"
	tableFile   = "sweep.csv"
	dataFile    = "sweep.json"
	inputFile   = "scenario.toml"
)

// partial is where rows are kept until the sweep is finished.
func (f *sweeping) partial() string { return filepath.Join(f.path, partialFile) }

// mostCores is the most workers that can be of use, with room for a machine that is told to have fewer cores than it has.
func mostCores() int { return max(8, 4*runtime.NumCPU()) }

// workers is how many there are to be; it says where that is not what was asked for.
func (f *sweeping) workers(errOut io.Writer) int {
	switch most := mostCores(); {
	case f.cores == 0:
		return runtime.GOMAXPROCS(0)
	case f.cores > most:
		fmt.Fprintf(errOut, "--cores: %d are used, not %d: more are of no use on this machine, which has %d\n", most, f.cores, runtime.NumCPU())
		return most
	}
	return f.cores
}

func (f *sweeping) run(ctx context.Context, s *scenarios.Scenario, out, errOut io.Writer) error {
	work := sweep.Sweep{Scenario: s, Quick: f.quick, Sketch: f.sketch, Workers: f.workers(errOut)}
	o, err := work.Origin(version)
	if err != nil {
		return fmt.Errorf("%s: %w", s.File, err)
	}
	files, err := f.copied(s)
	if err != nil {
		return fmt.Errorf("%s: %w", s.File, err)
	}
	return f.within(func(dir *folder.Folder) error {
		if done, err := f.finished(dir, o); err != nil || done {
			if done && err == nil {
				fmt.Fprintf(out, "%s holds this sweep already, finished: nothing to do.\n", f.path)
			}
			return err
		}
		set := folder.Set{Kind: sweepKind, Inputs: s.Inputs(), Force: f.force}
		if err := f.free(dir, set, files, s); err != nil {
			return err
		}
		g, resumed, err := f.sweep(ctx, dir, &work, o, errOut)
		if err != nil {
			return err
		}
		answer := &table.Sweep{Title: s.Title, File: s.File, Version: version, Origin: o, Grid: g}
		undrawn, err := f.write(ctx, dir, set, answer, s, files)
		if err != nil {
			return f.without(dir, err)
		}
		if err := answer.WriteText(out); err != nil {
			return err
		}
		for _, why := range slices.Concat(s.Taken, undrawn) {
			fmt.Fprint(out, table.Wrapped(why))
		}
		if f.again {
			fmt.Fprint(out, table.Wrapped(fmt.Sprintf("%s.", resumed)))
		}
		_, err = io.WriteString(out, wroteTo(f.path, strings.Join(append([]string{tableFile, dataFile, inputFile}, answer.Figures...), ", ")))
		return err
	})
}

// sweepKind is what the sets of sweeps are called in the list of a folder.
const sweepKind = "sweep"

// finished tells whether the folder holds this very sweep. Another one there is an
// error, unless it may be replaced.
func (f *sweeping) finished(dir *folder.Folder, o sweep.Origin) (bool, error) {
	_, missing := dir.Root().Lstat(partialFile)
	whole, part := dir.Has(sweepKind), missing == nil
	switch {
	case f.force || !whole && !part:
		return false, nil
	case part && !f.again:
		return false, fmt.Errorf("%s holds an unfinished sweep: --continue goes on with it, --force starts again", f.path)
	case part:
		return false, nil // what it holds is looked at when it is opened
	case !f.again:
		return false, fmt.Errorf("%s holds a finished sweep: --force replaces it", f.path)
	}
	if err := dir.Whole(sweepKind); err != nil {
		return false, fmt.Errorf("%s holds a finished sweep, but %w: --force makes it anew", f.path, err)
	}
	earlier, err := f.earlier(dir)
	if err != nil {
		return false, fmt.Errorf("%s holds a finished sweep, but %w: --force replaces it", f.path, err)
	}
	if why := o.Differs(earlier); why != "" {
		return false, fmt.Errorf("%s holds another sweep that is finished: %s; --force replaces it", f.path, why)
	}
	return true, nil
}

// earlier tells of the finished sweep in the folder its origin.
func (f *sweeping) earlier(dir *folder.Folder) (sweep.Origin, error) {
	file, err := dir.Root().Open(dataFile)
	if err != nil {
		return sweep.Origin{}, err
	}
	defer file.Close()
	return table.SweepOrigin(file)
}

// free refuses, before the work, a folder that holds files which the sweep would replace and may not.
func (f *sweeping) free(dir *folder.Folder, set folder.Set, files []folder.File, s *scenarios.Scenario) error {
	set.Files = append([]folder.File{{Name: dataFile}, {Name: tableFile}}, files...)
	for _, name := range figure.SweepNames(s.Vary) {
		for _, format := range sweepFormats() {
			set.Files = append(set.Files, folder.File{Name: name + "." + string(format)})
		}
	}
	for _, input := range set.Inputs {
		if same(input, f.partial()) {
			return fmt.Errorf("%s is read by this command, which would replace it: name another folder", f.partial())
		}
	}
	return dir.Free(set)
}

// same tells whether two names are of one file.
func same(one, other string) bool {
	first, err := os.Stat(one)
	second, otherErr := os.Stat(other)
	return err == nil && otherErr == nil && os.SameFile(first, second)
}

// copied is the scenario with what it needs, so that it can be run from the folder of the sweep.
func (f *sweeping) copied(s *scenarios.Scenario) ([]folder.File, error) {
	c, err := s.Copy(f.vary...)
	if err != nil {
		return nil, err
	}
	var files []folder.File
	for _, m := range c.Materials {
		files = append(files, folder.Bytes(m.Name, m.Text))
	}
	return append(files, folder.Bytes(inputFile, c.Text)), nil
}

// resumed is what a sweep that goes on has found and done.
type resumed struct{ kept, found, rows, damaged int }

// String tells how much of the work was done before.
func (r resumed) String() string {
	said := fmt.Sprintf("Of %d rows %d were kept from before, %d are new", r.rows, r.kept, r.found)
	if r.damaged > 0 {
		said += fmt.Sprintf("; lines of %s that were damaged and left out: %d", partialFile, r.damaged)
	}
	return said
}

// sweep runs and keeps each row; what it leaves when it fails can be continued.
func (f *sweeping) sweep(ctx context.Context, dir *folder.Folder, work *sweep.Sweep, o sweep.Origin, errOut io.Writer) (*sweep.Grid, resumed, error) {
	open := sweep.CreatePartial
	if f.again {
		open = sweep.OpenPartial
	}
	part, err := open(dir.Root(), partialFile, o)
	if err != nil {
		return nil, resumed{}, err
	}
	r := resumed{kept: len(part.Known), rows: o.Rows, damaged: part.Damaged}
	bar := newProgress(errOut, r.kept, o.Rows, "rows")
	work.Known = part.Known
	work.Done = func(index int, row sweep.Row) error {
		err := part.Add(index, row)
		if err == nil {
			r.found++
			bar.step()
		}
		return err
	}
	g, err := work.Run(ctx)
	bar.end()
	err = errors.Join(err, part.Close())
	if errors.Is(err, context.Canceled) {
		err = f.interrupted(r.kept+r.found, o.Rows)
	}
	if err != nil {
		return nil, r, f.without(dir, err)
	}
	return g, r, nil
}

// without takes away the unfinished file of a sketch that failed, from which nothing could go on.
func (f *sweeping) without(dir *folder.Folder, failed error) error {
	if !f.sketch {
		return failed
	}
	if err := dir.Root().Remove(partialFile); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return errors.Join(failed, folder.Unwritable(f.partial(), err))
	}
	return failed
}

func (f *sweeping) interrupted(kept, rows int) error {
	if f.sketch {
		return errors.New("strandry: interrupted")
	}
	return fmt.Errorf("strandry: interrupted; %d of %d rows are kept in %s: the same command with --continue goes on", kept, rows, f.path)
}

// write leaves the finished files and takes away the unfinished one. It tells which figures were not drawn. An
// interrupt leaves the rows for another time.
func (f *sweeping) write(ctx context.Context, dir *folder.Folder, set folder.Set, answer *table.Sweep, s *scenarios.Scenario, files []folder.File) ([]string, error) {
	sheets, undrawn := figure.OfSweep(answer.Grid, s, figure.FrameOf(s, version))
	drawings, err := unlessDone(ctx, func(ctx context.Context) ([]drawing, error) { return drawn(ctx, sheets, sweepFormats()...) })
	if err == nil {
		var figures []folder.File
		for _, d := range drawings {
			figures = append(figures, d.files...)
			if d.err != nil { // it is told and left out
				undrawn = append(undrawn, d.Name+": not drawn: "+d.err.Error())
			}
		}
		answer.Figures = fileNames(figures)
		set.Files = slices.Concat(figures, files, []folder.File{{Name: dataFile, Write: answer.WriteJSON}, {Name: tableFile, Write: answer.WriteCSV}})
		err = dir.Write(ctx, set)
	}
	switch {
	case ctx.Err() != nil && err != nil:
		return nil, f.interrupted(answer.Origin.Rows, answer.Origin.Rows)
	case err != nil:
		return nil, err
	}
	if err := dir.Root().Remove(partialFile); err != nil {
		return nil, folder.Unwritable(f.partial(), err)
	}
	return undrawn, nil
}

// sweepFormats are those of its figures.
func sweepFormats() []canvas.Format { return []canvas.Format{canvas.PNG, canvas.SVG} }
