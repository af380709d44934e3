// Command strandry tells whether a strand of polymer can be dried on its way to
// the printer.
//
// Exit status: 0 the question was answered, whatever the answer; 1 it could not be
// answered (a faulty or unreadable file, no room to write); 2 the command line
// was not understood. Where the reader of a pipe leaves early, as head does, the system's signal
// ends the program, which a shell calls 141.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"
	"syscall"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"strandry/materials/text/inert"
	"strandry/materials/text/nearest"
)

const version = "0.1.0"

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop) // a second interrupt ends the program at once
	status := run(ctx, os.Args[1:], os.Stdout, os.Stderr)
	stop()
	os.Exit(status)
}

// Exit statuses.
const (
	answered = 0
	failed   = 1
	misused  = 2
)

// failure is an error of the work, as opposed to one of the command line.
type failure struct{ error }

func (f failure) Unwrap() error { return f.error }

// misuse is an error of the command line that the work has found.
type misuse struct{ error }

func (m misuse) Unwrap() error { return m.error }

// work is what a command does, whose errors are failures but for those of the command line.
func work(does func(c *cobra.Command, args []string) error) func(c *cobra.Command, args []string) error {
	return func(c *cobra.Command, args []string) error {
		err := does(c, args)
		if misread := (misuse{}); err == nil || errors.As(err, &misread) {
			return err
		}
		return failure{err}
	}
}

// helpCommand explains a command; one that there is not is wrong use.
func helpCommand(root *cobra.Command) *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND]",
		Short: "Explain a command",
		RunE: func(_ *cobra.Command, args []string) error {
			c, _, err := root.Find(args)
			if err != nil {
				return err
			}
			return c.Help()
		},
	}
}

// addCommands adds the commands in groups, by what somebody wants.
func addCommands(root *cobra.Command) {
	for _, g := range [...]struct {
		id, title string
		commands  []*cobra.Command
	}{
		{"begin", "Begin:", []*cobra.Command{newCommand()}},
		{"ask", "Ask about one design:", []*cobra.Command{runCommand(), sizeCommand(), suitsCommand(), keepsCommand()}},
		{"depends", "Study what it depends on:", []*cobra.Command{sweepCommand(), doubtCommand()}},
		{"show", "Show it to others:", []*cobra.Command{plotCommand(), buildlogCommand()}},
		{"know", "Know what it rests on:", []*cobra.Command{fitCommand(), materialsCommand(), evidenceCommand(), proveCommand()}},
	} {
		root.AddGroup(&cobra.Group{ID: g.id, Title: g.title})
		for _, c := range g.commands {
			c.GroupID, c.RunE = g.id, work(c.RunE)
		}
		root.AddCommand(g.commands...)
	}
	root.SetHelpCommandGroupID("begin")
}

// run carries out one command line.
func run(ctx context.Context, args []string, out, errOut io.Writer) int {
	root := &cobra.Command{
		Use:           "strandry",
		Short:         "Can this filament be dried on its way to the printer?",
		Long:          long,
		Version:       version,
		SilenceUsage:  true,
		SilenceErrors: true,
		RunE:          func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	root.CompletionOptions.HiddenDefaultCmd = true
	root.SetFlagErrorFunc(nearestFlag)
	root.SetVersionTemplate("strandry {{.Version}}\n")
	root.SetUsageTemplate(strings.ReplaceAll(root.UsageTemplate(), ".FlagUsages", ".FlagUsagesWrapped 80"))
	root.SetHelpCommand(helpCommand(root))
	addCommands(root)
	root.SetArgs(args)
	said := &outlet{Writer: out}
	root.SetOut(said)
	root.SetErr(errOut)
	err := root.ExecuteContext(ctx)
	var broken failure
	if said.err != nil && !errors.As(err, &broken) {
		err = failure{said.err}
	}
	switch {
	case err == nil:
		return answered
	case errors.As(err, &broken):
		fmt.Fprintln(errOut, inert.EscapedLines(broken.Error()))
		return failed
	}
	fmt.Fprintf(errOut, "strandry: %s\nstrandry --help lists the commands.\n", inert.EscapedLines(strings.TrimSpace(err.Error())))
	return misused
}

// outlet says nothing that a terminal would obey, such as the name of a file, and remembers that something
// could not be said.
type outlet struct {
	io.Writer
	err error // the first
}

func (o *outlet) Write(text []byte) (int, error) {
	_, err := io.WriteString(o.Writer, inert.EscapedLines(string(text)))
	if o.err == nil {
		o.err = err
	}
	if err != nil {
		return 0, err
	}
	return len(text), nil
}

// nearestFlag adds to the error of an unknown flag the one that was most likely
// meant.
func nearestFlag(c *cobra.Command, err error) error {
	var unknown *pflag.NotExistError
	if !errors.As(err, &unknown) {
		return err
	}
	var names []string
	c.Flags().VisitAll(func(f *pflag.Flag) { names = append(names, f.Name) })
	if near := nearest.Name(unknown.GetSpecifiedName(), names); near != "" {
		return fmt.Errorf("%w; did you mean --%s?", err, near)
	}
	return err
}

const long = `strandry follows a strand of filament through a heated path and tells how wet it
is at the nozzle, why, and how far that number can be trusted.

    strandry run
    strandry new my-dryer.toml

A scenario is a TOML file; "strandry new FILE" writes one to start from. Without
a file the commands work on a demonstration.

Exit status: 0 answered, 1 failed, 2 wrong use; 141 where the reader of a pipe
has left, as head does.`
