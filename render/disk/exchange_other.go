//go:build !linux

package disk

import "errors"

// exchange has no portable call.
func exchange(a, b string) error { return errors.ErrUnsupported }
