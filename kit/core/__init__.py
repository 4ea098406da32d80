"""What knows no trade and no screen: quantities, tables, models, uncertainty, verdicts, builds."""
