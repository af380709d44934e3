package main

import (
	"fmt"

	"strandry/scenarios"
)

// text reads a text file whole; its errors name the file.
func text(path string) ([]byte, error) {
	content, err := scenarios.Text(path)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", path, err)
	}
	return content, nil
}
