package record

// Tables lists every table in its order.
func Tables() []Table { return tables }
