namespace barwright::oils {}
