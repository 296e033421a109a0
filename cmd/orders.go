package cmd

import (
	"context"
	"io"

	"laybill/estimate"
	"laybill/sheet/exchange"
)

// writeOrders writes the order documents into a folder.
func (o *outputs) writeOrders(ctx context.Context, folder string, result *estimate.Result) error {
	orders, err := exchange.OrderFiles(result)
	if err != nil {
		return err
	}
	var files []folderFile
	for _, order := range orders {
		files = append(files, folderFile{order.Name, func(w io.Writer) error {
			_, err := w.Write(order.Data)
			return err
		}})
	}
	return o.writeFolder(ctx, folder, "orders", exchange.IsOrderFile, files)
}
