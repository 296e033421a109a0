package layout

import "context"

// Lay lays a pool with as few planks as it can find. It never takes more planks
// than ByEye. The error is that of the context alone.
func Lay(ctx context.Context, p Pool) (Plan, error) {
	return ByEye(ctx, p)
}
