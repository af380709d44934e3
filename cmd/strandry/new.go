package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"

	"github.com/spf13/cobra"

	"strandry/plots/folder"
	"strandry/scenarios"
)

func newCommand() *cobra.Command {
	var weighings bool
	c := &cobra.Command{
		Use:   "new FILE",
		Short: "Write a commented scenario to start from",
		Long: `new writes a scenario to start from, with every key explained.

    strandry new my-dryer.toml
    strandry new --weighings my-weighings.toml

--weighings writes a file of weighings instead, for strandry fit.`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) != 1 {
				return errors.New("new needs the name of the one file to write")
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error {
			text, next := scenarios.Template(), "run"
			if weighings {
				text, next = scenarios.WeighingsTemplate(), "fit --plan"
			}
			if err := create(args[0], text); err != nil {
				return err
			}
			fmt.Fprintf(c.OutOrStdout(), "Wrote %s. Change it, then:\n  strandry %s %s\n", args[0], next, args[0])
			return nil
		},
	}
	c.Flags().BoolVar(&weighings, "weighings", false, "write a file of weighings, for strandry fit")
	return c
}

// create writes a file that must not exist yet. A file that could not be
// written whole is removed.
func create(path string, content []byte) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("%s: exists already; name a new file or remove it first", path)
	}
	if err != nil {
		return folder.Unwritable(path, err)
	}
	_, err = f.Write(content)
	err = errors.Join(err, f.Sync(), f.Close())
	if err != nil {
		return errors.Join(folder.Unwritable(path, err), os.Remove(path))
	}
	return nil
}
