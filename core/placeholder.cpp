namespace barwright::core {}
