// Package section marches diffusion in the cross-section of a cylinder whose perimeter is partly covered.
package section
