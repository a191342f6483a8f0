namespace barwright::app {}
