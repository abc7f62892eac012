// Package browsertest gives tests a browser, where there is one.
package browsertest

import (
	"context"
	"errors"
	"testing"
	"time"

	"evendrop/cmd/internal/browser"

	"github.com/stretchr/testify/require"
)

// limit is how long a test may have its browser: on a quiet machine the longest, every page, takes
// two minutes, and where others work as well three times that.
const limit = 8 * time.Minute

// Start is a browser that ends with the test; where there is none the test is skipped, in
// words. Profile is as browser.Start takes it.
func Start(t *testing.T, profile string) *browser.Browser {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), limit)
	t.Cleanup(cancel)
	b, err := browser.Start(ctx, profile)
	if errors.Is(err, browser.ErrNone) {
		t.Skip(err)
	}
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, b.Close()) })
	return b
}

// Page is a tab of a browser that ends with the test.
func Page(t *testing.T, b *browser.Browser) *browser.Page {
	t.Helper()
	p, err := b.NewPage()
	require.NoError(t, err)
	return p
}
